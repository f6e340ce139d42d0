#!/bin/sh
# After the units came or went; a machine without systemd has nothing to do.
set -e
if [ -d /run/systemd/system ]; then systemctl daemon-reload; fi
