#!/usr/bin/env bash
# Error of ln D: one model on all cores against fits core by core and against the least that any method can reach; writes deck-model-oracle.md
# beside this file. About 10 minutes of processor time.
set -euo pipefail
cd "$(dirname "$0")/../.."
DECKLIFE_STUDY=deck-model-oracle dotnet test -c Release tests/DeckLife.Tests --filter "FullyQualifiedName~DeckOracleStudyTests"
