#!/usr/bin/env bash
# Lives of overlays projected for a cohort of decks, beside published ones: 4000 decks, two overlays, four limits; some minutes on one core.
# Writes overlay-lives.txt beside this script. Priors and seed stand in the test; CI runs 240 decks.
set -euo pipefail
here="$(cd "$(dirname "$0")" && pwd)"
DECKLIFE_STUDIES="$here" dotnet test -c Release "$here/../../tests/DeckLife.Tests" \
  --filter "FullyQualifiedName~OverlayLifeStudyTests"
