#!/usr/bin/env bash
# Passes all tests, or those of some parts.  use: bash tests/run.sh [PART...] [OPTION OF dotnet test...]
# Parts: metrology register storage documents server browser style. Without one all is built, formatted, audited and tested.
# Installs by apt what is missing where it may; otherwise says exactly what is missing and fails. Nothing is skipped silently.
set -euo pipefail
cd "$(dirname "$0")/.."

declare -A projects=(
  [metrology]=Metrology [register]=Register [storage]=Storage.LiteDb [documents]=Documents [server]=Server [browser]=Browser [style]=
)
chosen=()
while [ $# -gt 0 ] && [[ $1 != -* ]]; do
  if [ -z "${projects[$1]+known}" ]; then
    echo "There is no part '$1'. Parts: metrology register storage documents server browser style." >&2
    exit 2
  fi
  chosen+=("$1")
  shift
done

# What the tests need beside the SDK: Debian's package, a file that shows it is there, what for, and the parts that need it.
needed() {
  while IFS='|' read -r package file what parts; do
    [ -e "$file" ] && continue
    for part in $parts; do
      if [ ${#chosen[@]} = 0 ] || [[ " ${chosen[*]} " == *" $part "* ]]; then echo "$package|$file $what"; break; fi
    done
  done << 'END'
tzdata|/usr/share/zoneinfo/Atlantic/Azores|for zone data|register documents server browser
chromium|/usr/bin/chromium|for the browser tests|browser
openssl|/usr/bin/openssl|for the certificates|server
python3|/usr/bin/python3|for the second implementation of traces|server
zbar-tools|/usr/bin/zbarimg|to read labels|documents
poppler-utils|/usr/bin/pdftoppm|to print them to pictures|documents
END
}

mapfile -t packages < <(needed | cut -d '|' -f 1)
if [ ${#packages[@]} -gt 0 ] && command -v apt-get > /dev/null && [ "$(id -u)" = 0 ]; then
  echo "Installing ${packages[*]}" && apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq "${packages[@]}" > /dev/null
fi
mapfile -t missing < <(needed | sed 's/\(.*\)|\(.*\)/\2 (package \1)/')
command -v dotnet > /dev/null || missing+=("the .NET SDK of global.json (command dotnet)")
if [ ${#missing[@]} -gt 0 ]; then
  echo "Missing, and not to be installed from here:" >&2
  printf -- '- %s\n' "${missing[@]}" >&2
  exit 1
fi

export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1
style() { dotnet format MicRegister.sln --verify-no-changes --no-restore; }

# Parts: just what they are made of is built, and they run one after the other.
for part in "${chosen[@]}"; do
  if [ "$part" = style ]; then
    dotnet build MicRegister.sln --nologo -v quiet
    style
  else
    dotnet build "tests/MicRegister.${projects[$part]}.Tests" --nologo -v quiet
    dotnet test --project "tests/MicRegister.${projects[$part]}.Tests" --no-build "$@"
  fi
done
[ ${#chosen[@]} = 0 ] || exit 0

dotnet build MicRegister.sln --nologo -v quiet
# Beside the tests, which leave a core free now and then; its verdict is asked for at the end.
said=$(mktemp)
style > "$said" 2>&1 &
styling=$!
trap 'kill "$styling" 2> /dev/null || true; rm -f "$said"' EXIT
# Known holes in what is shipped, where the package feed answers such questions.
audit=$(dotnet list src/MicRegister.Server/MicRegister.Server.csproj package --vulnerable --include-transitive 2>&1) || audit="not answered: $audit"
case $audit in
  *"has the following vulnerable packages"*) echo "$audit" >&2; exit 1 ;;
  *"has no vulnerable packages"*) echo "No vulnerable packages are known." ;;
  *) echo "The feed does not say whether packages are vulnerable." ;;
esac
code=0
dotnet test --solution MicRegister.sln --no-build "$@" || code=$?
wait "$styling" || { code=1; cat "$said" >&2; }
exit "$code"
