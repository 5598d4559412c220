#!/usr/bin/env bash
# Error of ln D: one model on all cores against fits core by core; writes deck-model-error.md beside this file. About 2 minutes on two cores.
set -euo pipefail
cd "$(dirname "$0")/../.."
DECKLIFE_STUDY=deck-model-error dotnet test -c Release tests/DeckLife.Tests --filter "FullyQualifiedName~DeckErrorStudyTests"
