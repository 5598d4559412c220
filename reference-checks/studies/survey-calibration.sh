#!/usr/bin/env bash
# Simulation-based calibration of learning from surveys: 1000 decks, 20 000 draws each; about two minutes on one core.
# Writes survey-calibration.txt beside this script. The seed stands in the test; CI runs 200 decks with 4000 draws.
set -euo pipefail
here="$(cd "$(dirname "$0")" && pwd)"
DECKLIFE_STUDIES="$here" dotnet test -c Release "$here/../../tests/DeckLife.Tests" \
  --filter "FullyQualifiedName~SurveyCalibrationTests.Learn_TruthsFromThePrior"
