#!/usr/bin/env bash
# Simulation-based calibration of the deck model's posterior; writes deck-model-calibration.md beside this file.
# About 3 minutes on two idle cores. The seed stands in DeckCalibrationTests.
set -euo pipefail
cd "$(dirname "$0")/../.."
DECKLIFE_STUDY=deck-model-calibration dotnet test -c Release tests/DeckLife.Tests --filter Study_WhenAskedFor
