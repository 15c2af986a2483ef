#!/usr/bin/env bash
# Makes an authority of the house that can vouch for some names only, and a server's certificate by it.
# use: bash deploy/make-certificates.sh FOLDER NAME [NAME-OR-ADDRESS ...]     for example: ... certs register.lan 192.168.1.20
# The authority's key can vouch for the names and networks of this call alone (name constraints, RFC 5280, 4.2.1.10).
# Keep authority.key away from the server, offline. Needs openssl 3.
set -euo pipefail
[ $# -ge 2 ] || { echo "use: $0 FOLDER NAME [NAME-OR-ADDRESS ...]" >&2; exit 2; }
folder=$1; shift
umask 077
mkdir -p "$folder"
authority_days=1825 server_days=397    # phones refuse servers' certificates that last longer

names= constraints=
for name in "$@"; do
  if [[ $name =~ ^[0-9]+\.[0-9]+\.[0-9]+\.[0-9]+$ ]]; then
    names+="IP:$name," constraints+="permitted;IP:$name/255.255.255.255,"
  elif [[ $name =~ ^[A-Za-z0-9]([A-Za-z0-9.-]*[A-Za-z0-9])?$ ]]; then
    names+="DNS:$name," constraints+="permitted;DNS:$name,"
  else
    echo "$name is neither a name nor an IPv4 address" >&2; exit 2
  fi
done
# Where no name, or no address, is given, none can be vouched for.
[[ $names == *DNS:* ]] || constraints+="permitted;DNS:none.invalid,"
[[ $names == *IP:* ]] || constraints+="excluded;IP:0.0.0.0/0.0.0.0,"
constraints+="excluded;IP:0:0:0:0:0:0:0:0/0:0:0:0:0:0:0:0,"

if [ ! -e "$folder/authority.key" ]; then
  openssl ecparam -name prime256v1 -genkey -noout -out "$folder/authority.key"
  openssl req -x509 -new -key "$folder/authority.key" -sha256 -days $authority_days -subj "/CN=Register authority for $1" \
    -addext "basicConstraints=critical,CA:TRUE,pathlen:0" -addext "keyUsage=critical,keyCertSign,cRLSign" -addext "nameConstraints=critical,${constraints%,}" -out "$folder/authority.crt"
fi
openssl ecparam -name prime256v1 -genkey -noout -out "$folder/server.key"
openssl req -new -key "$folder/server.key" -subj "/CN=$1" -out "$folder/server.csr"
openssl x509 -req -in "$folder/server.csr" -CA "$folder/authority.crt" -CAkey "$folder/authority.key" -CAcreateserial -sha256 -days $server_days -out "$folder/server.crt" \
  -extfile <(printf 'basicConstraints=critical,CA:FALSE\nkeyUsage=critical,digitalSignature\nextendedKeyUsage=serverAuth\nsubjectAltName=%s\n' "${names%,}") 2> /dev/null
rm -f "$folder/server.csr"
chmod 644 "$folder/authority.crt" "$folder/server.crt"
openssl verify -CAfile "$folder/authority.crt" "$folder/server.crt" > /dev/null
echo "Made $folder/server.crt for $*. Serve with: --certificate $folder/server.crt --key $folder/server.key --authority $folder/authority.crt"
echo "Fingerprint of the authority (SHA-256): $(openssl x509 -in "$folder/authority.crt" -noout -fingerprint -sha256 | cut -d= -f2)"
