#!/usr/bin/env bash
# Builds the package twice, installs it, tries what it brought, and removes it again.
# It changes the machine: for a throw-away one, as root, with systemd-analyze and man.
set -euo pipefail
here=$(dirname "$0")
out=$(mktemp -d)
trap 'rm -rf "$out"' EXIT
mkdir "$out/a" "$out/b"
"$here/build.sh" "$out/a" >/dev/null
"$here/build.sh" "$out/b" >/dev/null
cmp "$out"/a/*.deb "$out"/b/*.deb
echo "two builds of one commit are the same, $(stat -c %s "$out"/a/*.deb) bytes"

dpkg --force-depends -i "$out"/a/*.deb >/dev/null
dawnbrush week --demo >"$out/week"
grep -q cucumber "$out/week"
man -w dawnbrush dawnbrush-today >/dev/null 2>&1 || { [ -e /etc/dpkg/dpkg.cfg.d/docker ] && echo "this machine leaves manual pages out"; }
units=(/lib/systemd/system/dawnbrush-{digest,outbox}.service)
systemd-analyze verify --man=no "${units[@]}" /lib/systemd/system/dawnbrush-{digest,outbox}.timer
for unit in "${units[@]}"; do systemd-analyze security --offline=true --threshold=15 "$unit" | tail -1; done
dpkg -L dawnbrush | sort >"$out/files"

dpkg -r dawnbrush >/dev/null
left=$(while read -r f; do if [ -f "$f" ]; then echo "$f"; fi; done <"$out/files")
[ -z "$left" ] || { echo "left behind: $left"; exit 1; }
echo "installed, ran, removed: $(wc -l <"$out/files") files and folders, nothing left"
