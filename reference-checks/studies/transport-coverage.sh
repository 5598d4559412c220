#!/usr/bin/env bash
# The whole study behind the error estimate of the layered solver: 1000 random cases; writes transport-coverage.md.
set -euo pipefail
cd "$(dirname "$0")/../.."
DECKLIFE_STUDY_CASES="${1:-1000}" dotnet test -c Release tests/DeckLife.Numerics.Tests \
  --filter FullyQualifiedName~LayeredSolverCoverageTests
