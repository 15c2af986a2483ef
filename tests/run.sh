#!/usr/bin/env bash
# Passes all tests.  use: bash tests/run.sh
# Installs by apt what is missing where it may; otherwise says exactly what is missing and fails. Nothing is skipped silently.
set -euo pipefail
cd "$(dirname "$0")/.."

# Debian's packages that the tests need, each with a file that shows it is there.
packages=()
[ -e /usr/share/zoneinfo/Atlantic/Azores ] || packages+=(tzdata)
[ -x /usr/bin/chromium ] || packages+=(chromium)
[ -x /usr/bin/openssl ] || packages+=(openssl)
[ -x /usr/bin/zbarimg ] || packages+=(zbar-tools)
[ -x /usr/bin/pdftoppm ] || packages+=(poppler-utils)
if [ ${#packages[@]} -gt 0 ] && command -v apt-get > /dev/null && [ "$(id -u)" = 0 ]; then
  echo "Installing ${packages[*]}" && apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq "${packages[@]}" > /dev/null
fi

missing=()
command -v dotnet > /dev/null || missing+=("the .NET SDK of global.json (command dotnet)")
[ -e /usr/share/zoneinfo/Atlantic/Azores ] || missing+=("zone data (package tzdata)")
[ -x /usr/bin/chromium ] || missing+=("/usr/bin/chromium for the browser tests (package chromium)")
[ -x /usr/bin/zbarimg ] || missing+=("/usr/bin/zbarimg to read labels (package zbar-tools)")
[ -x /usr/bin/pdftoppm ] || missing+=("/usr/bin/pdftoppm to print them to pictures (package poppler-utils)")
[ -x /usr/bin/openssl ] || missing+=("/usr/bin/openssl for the certificates (package openssl)")
if [ ${#missing[@]} -gt 0 ]; then
  echo "Missing, and not to be installed from here:" >&2
  printf -- '- %s\n' "${missing[@]}" >&2
  exit 1
fi

export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1
dotnet build MicRegister.sln --nologo -v quiet
dotnet format MicRegister.sln --verify-no-changes --no-restore
# Known holes in what is shipped, where the package feed answers such questions.
audit=$(dotnet list src/MicRegister.Server/MicRegister.Server.csproj package --vulnerable --include-transitive 2>&1) || audit="not answered: $audit"
case $audit in
  *"has the following vulnerable packages"*) echo "$audit" >&2; exit 1 ;;
  *"has no vulnerable packages"*) echo "No vulnerable packages are known." ;;
  *) echo "The feed does not say whether packages are vulnerable." ;;
esac
dotnet test --solution MicRegister.sln --no-build "$@"
