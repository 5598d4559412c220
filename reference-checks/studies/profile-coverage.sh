#!/usr/bin/env bash
# Coverage of the limits of single-core fits on simulated cores; writes profile-coverage.md beside this file.
# A few minutes on two cores. The seed stands in CoverageStudyTests.
set -euo pipefail
cd "$(dirname "$0")/../.."
DECKLIFE_STUDY=profile-coverage dotnet test -c Release reference-checks/DeckLife.ReferenceChecks --filter Study_WhenAskedFor
