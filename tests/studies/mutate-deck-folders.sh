#!/usr/bin/env bash
# 100 000 random changes to the files of a deck folder; usage: mutate-deck-folders.sh [count] [first seed]
set -euo pipefail
cd "$(dirname "$0")/../.."
export DECKLIFE_MUTATIONS="${1:-100000}" DECKLIFE_MUTATION_SEED="${2:-1}"
dotnet test -c Release tests/DeckLife.Data.Tests --filter "FullyQualifiedName~DeckFolderMutationTests" \
  --logger "console;verbosity=detailed"
