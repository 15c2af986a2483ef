#!/usr/bin/env bash
# Passes all tests.  use: bash tests/run.sh
# Installs by apt what is missing where it may; otherwise says exactly what is missing and fails. Nothing is skipped silently.
set -euo pipefail
cd "$(dirname "$0")/.."

# Debian's packages that the tests need, each with a file that shows it is there.
packages=()
[ -e /usr/share/zoneinfo/Atlantic/Azores ] || packages+=(tzdata)
[ -x /usr/bin/chromium ] || packages+=(chromium)
if [ ${#packages[@]} -gt 0 ] && command -v apt-get > /dev/null && [ "$(id -u)" = 0 ]; then
  echo "Installing ${packages[*]}" && apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq "${packages[@]}" > /dev/null
fi

missing=()
command -v dotnet > /dev/null || missing+=("the .NET SDK of global.json (command dotnet)")
[ -e /usr/share/zoneinfo/Atlantic/Azores ] || missing+=("zone data (package tzdata)")
[ -x /usr/bin/chromium ] || missing+=("/usr/bin/chromium for the browser tests (package chromium)")
if [ ${#missing[@]} -gt 0 ]; then
  echo "Missing, and not to be installed from here:" >&2
  printf -- '- %s\n' "${missing[@]}" >&2
  exit 1
fi

export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1
dotnet build MicRegister.sln --nologo -v quiet
dotnet format MicRegister.sln --verify-no-changes --no-restore
dotnet test --solution MicRegister.sln --no-build "$@"
