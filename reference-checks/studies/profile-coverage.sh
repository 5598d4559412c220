#!/usr/bin/env bash
# Coverage of the limits of single-core fits on simulated cores; writes profile-coverage.md beside this file.
# About 10 minutes of processor time. The seed stands in CoverageStudyTests.
set -euo pipefail
cd "$(dirname "$0")/../.."
DECKLIFE_STUDY=profile-coverage dotnet test -c Release reference-checks/DeckLife.ReferenceChecks --filter Study_WhenAskedFor
