#!/usr/bin/env bash
# Reads a chloride table of a million rows, and one of a quarter of it; usage: read-large-tables.sh [rows]
set -euo pipefail
cd "$(dirname "$0")/../.."
export DECKLIFE_LARGE_ROWS="${1:-1000000}"
dotnet test -c Release tests/DeckLife.Data.Tests --filter "FullyQualifiedName~FourTimesTheRows" \
  --logger "console;verbosity=detailed"
