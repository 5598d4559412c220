#!/usr/bin/env bash
# Packs the command as a .NET tool, installs it from a local folder alone, and makes a report with it from another folder.
#   bash tests/studies/install-as-tool.sh
# Asks no package registry for the tool itself: its package holds all that it needs. Exit code 0: it works as installed.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
root=$PWD
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1
# A cache of its own: a package of the same version from an earlier run would be taken instead.
mkdir "$work/feed" "$work/elsewhere"

dotnet pack src/DeckLife.Cli -c Release -o "$work/feed" -v quiet
package=$(ls "$work"/feed/DeckLife.Cli.*.nupkg)
echo "package: $(basename "$package"), $(stat -c %s "$package") bytes"

cat > "$work/nuget.config" <<XML
<?xml version="1.0" encoding="utf-8"?>
<configuration>
  <packageSources>
    <clear />
    <add key="local" value="$work/feed" />
  </packageSources>
</configuration>
XML
version=$(basename "$package" .nupkg)
NUGET_PACKAGES="$work/cache" dotnet tool install DeckLife.Cli --version "${version#DeckLife.Cli.}" \
  --tool-path "$work/tools" --configfile "$work/nuget.config"

cd "$work/elsewhere"
"$work/tools/decklife" version
cp -r "$root/demo-data/quillmarsh-crossing" deck
start=$SECONDS
"$work/tools/decklife" report deck --out report --no-timestamp 2>errors.txt || { cat errors.txt; exit 1; }
echo "report by the installed tool: $((SECONDS - start)) s"
grep -q 'scarify and overlay' report/report.html
! grep -q 'class="incomplete"' report/report.html
[ "$(stat -c %s report/report.html)" -lt 6000000 ]
# The same bytes as the command that lies in the build's own folder.
"$root/src/DeckLife.Cli/bin/Release/net10.0/decklife" report deck --out again --no-timestamp 2>/dev/null
cmp report/report.html again/report.html
cmp report/deck-report.ipynb again/deck-report.ipynb
echo "the installed tool and the build make the same report"
