#!/usr/bin/env bash
# Takes a picture of every page with the demo fleet, wide and narrow, light and dark.  use: bash tests/pictures.sh [FOLDER]
set -euo pipefail
cd "$(dirname "$0")/.."
dotnet run --project tests/MicRegister.Browser.Tests -- pictures "${1:-artifacts/pictures}"
