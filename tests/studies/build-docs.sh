#!/usr/bin/env bash
# Builds the API pages and the pages of src/Documentation with docfx, outside of what is checked on every change; a warning fails it.
#   bash tests/studies/build-docs.sh [folder for the pages]
# docfx comes from the registry as a .NET tool, into a folder of its own. Needs the command built for Release.
set -euo pipefail
root="$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)"
pages="${1:-$(mktemp -d)}"
tool="${DOCFX:-$HOME/.cache/decklife-docfx}"
[ -x "$tool/docfx" ] || dotnet tool install docfx --version 2.81.0 --tool-path "$tool"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir "$work/bin"
# The libraries with the texts of their members beside them, and what they refer to; no project is built again.
cp "$root"/src/DeckLife.Cli/bin/Release/net10.0/*.dll "$work/bin"
for name in DeckLife DeckLife.Numerics DeckLife.Survey DeckLife.Network DeckLife.Data DeckLife.Reporting DeckLife.Notebooks; do
  cp "$root/src/$name/bin/Release/net10.0/$name.xml" "$work/bin"
done
cp -r "$root/src/Documentation" "$work/pages"
cp "$root/src/CHANGELOG.md" "$work/pages/CHANGELOG.md"
cat >"$work/docfx.json" <<'JSON'
{
  "metadata": [ {
    "src": [ { "src": "bin", "files": [ "DeckLife.dll", "DeckLife.Numerics.dll", "DeckLife.Survey.dll", "DeckLife.Network.dll", "DeckLife.Data.dll", "DeckLife.Reporting.dll", "DeckLife.Notebooks.dll" ] } ],
    "output": "api"
  } ],
  "build": {
    "content": [ { "files": [ "api/*.yml" ] }, { "src": "pages", "dest": "pages", "files": [ "**/*.md" ] } ],
    "resource": [ { "src": "pages", "dest": "pages", "files": [ "images/**", "cluster/**" ] } ],
    "output": "site",
    "template": [ "default", "modern" ]
  }
}
JSON
# A package that the notebooks' engine names is not among the files of the command, since nothing here calls it: no page hangs on it.
"$tool/docfx" metadata "$work/docfx.json" | tee "$work/log"
if grep -i 'warning:\|error:' "$work/log" | grep -v 'Unable to resolve assembly reference SQLitePCLRaw'; then exit 1; fi
"$tool/docfx" build "$work/docfx.json" --warningsAsErrors
mkdir -p "$pages"
cp -r "$work/site/." "$pages"
echo "$(find "$pages" -name '*.html' | wc -l) pages in $pages, no warnings"
