#!/usr/bin/env bash
# Sets up the .NET kernel for Jupyter inside this repository; nothing outside it is touched.
#   bash notebooks/setup-kernel.sh
#   export JUPYTER_PATH="$PWD/.tools/share/jupyter"
#   jupyter notebook notebooks          # or: jupyter nbconvert --execute --to notebook notebooks/deck-report.ipynb
# Needs the .NET SDK and Jupyter (Debian: jupyter-nbconvert, python3-ipykernel; and jupyter-notebook to work by hand).
set -euo pipefail
cd "$(dirname "$0")/.."
version=1.0.712001
root=$PWD

echo "library -> artifacts/kernel"
dotnet publish src/DeckLife.Notebooks -c Release -o artifacts/kernel --nologo -v quiet

# The kernel looks for native libraries beside the assemblies, not under runtimes.
case "$(uname -s)-$(uname -m)" in
  Linux-x86_64) runtime=linux-x64 ;;
  Linux-aarch64) runtime=linux-arm64 ;;
  Darwin-arm64) runtime=osx-arm64 ;;
  Darwin-x86_64) runtime=osx-x64 ;;
  *) runtime=none ;;
esac
if [ -d "artifacts/kernel/runtimes/$runtime/native" ]; then
  cp "artifacts/kernel/runtimes/$runtime/native/"* artifacts/kernel/
fi

echo "kernel -> .tools"
if [ ! -x .tools/dotnet-interactive ]; then
  dotnet tool install Microsoft.dotnet-interactive --version "$version" --tool-path .tools
fi

# The kernel ships an older FSharp.Core than the chart library asks for, and loads its own first: give it the newer
# one, which it runs with as well.
find .tools/.store -name FSharp.Core.dll | while read -r old; do
  cp artifacts/kernel/FSharp.Core.dll "$old"
done

spec=.tools/share/jupyter/kernels/.net-csharp
mkdir -p "$spec"
cat > "$spec/kernel.json" <<JSON
{
  "argv": ["$root/.tools/dotnet-interactive", "jupyter", "--default-kernel", "csharp", "--http-port-range", "2048-3000", "{connection_file}"],
  "display_name": ".NET (C#)",
  "language": "C#",
  "env": { "DOTNET_INTERACTIVE_CLI_TELEMETRY_OPTOUT": "1", "DOTNET_CLI_TELEMETRY_OPTOUT": "1" }
}
JSON

echo "ready. In this shell:"
echo "  export JUPYTER_PATH=\"$root/.tools/share/jupyter\""
