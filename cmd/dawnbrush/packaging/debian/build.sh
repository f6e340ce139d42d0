#!/usr/bin/env bash
# Builds the Debian package into the folder named: build.sh DIR. Needs Go alone.
set -euo pipefail
out=$(realpath "${1:?name a folder for the package}")
cd "$(dirname "$0")/../../../.."
STAGE=$(mktemp -d)
trap 'rm -rf "$STAGE"' EXIT
ARCH=$(go env GOARCH)
CGO_ENABLED=0 go build -trimpath -ldflags='-s -w' -o "$STAGE/dawnbrush" ./cmd/dawnbrush
VERSION=$("$STAGE/dawnbrush" version | cut -d' ' -f2)
mkdir "$STAGE/man"
for page in cmd/dawnbrush/packaging/man/*.1; do gzip -9nc "$page" >"$STAGE/man/$(basename "$page").gz"; done
recipe=$STAGE/nfpm.yaml
sed "s|\${STAGE}|$STAGE|; s|\${ARCH}|$ARCH|; s|\${VERSION}|$VERSION|" cmd/dawnbrush/packaging/debian/nfpm.yaml >"$recipe"
SOURCE_DATE_EPOCH=$(git log -1 --format=%ct) # the same package from the same commit
export SOURCE_DATE_EPOCH
go run github.com/goreleaser/nfpm/v2/cmd/nfpm@v2.44.1 package --config "$recipe" --packager deb --target "$out"
