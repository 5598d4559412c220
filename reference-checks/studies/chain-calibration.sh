#!/usr/bin/env bash
# Whether the band of the whole chain is honest, on decks simulated place by place; writes chain-calibration.md beside this file.
# Arguments: decks from what is stated (1000), decks of each adverse kind (20). About a second and a half of one core a deck. The seed stands
# in ChainCalibrationTests.
set -euo pipefail
cd "$(dirname "$0")/../.."
DECKLIFE_STUDY=chain-calibration DECKLIFE_STUDY_DECKS="${1:-1000}" DECKLIFE_STUDY_ADVERSE="${2:-20}" \
  dotnet test -c Release tests/DeckLife.Tests --filter "FullyQualifiedName~ChainCalibrationTests.Study_Chain"
