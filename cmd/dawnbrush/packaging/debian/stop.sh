#!/bin/sh
# Before the package goes, not before its next version comes.
set -e
if [ "$1" = remove ] && [ -d /run/systemd/system ]; then systemctl disable --now dawnbrush-digest.timer dawnbrush-outbox.timer; fi
