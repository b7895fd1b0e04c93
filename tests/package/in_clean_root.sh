#!/usr/bin/env bash
# Installs the package in a clean root and does the main job there as a user who has nothing else.
#
#   tests/package/in_clean_root.sh build/package/dryout_0.1.0_amd64.deb [ROOT]
#
# Needs root, debootstrap and Debian's archive; takes some minutes and a gigabyte below ROOT
# (a temporary folder by default).
set -euo pipefail

package=$(readlink -f "$1")
root=${2:-$(mktemp -d)}
chmod 0755 "$root"  # mktemp makes it for its owner alone, and inside it is everybody's "/"

if [ ! -x "$root/bin/sh" ]; then
  debootstrap --variant=minbase bookworm "$root" >/dev/null
fi
cp "$package" "$root/tmp/dryout.deb"
mount -t proc proc "$root/proc"
trap 'umount "$root/proc"' EXIT

inside() { chroot "$root" /usr/bin/env -i PATH=/usr/bin:/bin:/usr/sbin:/sbin DEBIAN_FRONTEND=noninteractive "$@"; }
as_user() { chroot --userspec=1000:1000 "$root" /usr/bin/env -i PATH=/usr/bin:/bin HOME=/tmp/novice "$@"; }

inside apt-get update -qq
inside apt-get install -y -qq --no-install-recommends /tmp/dryout.deb >/dev/null
mkdir -p "$root/tmp/novice" && chown 1000:1000 "$root/tmp/novice"

set -x
as_user dryout --version
as_user dryout lint
as_user sh -c 'cd && printf "q\n" | dryout guide | grep -q "Larkfield 40"'
as_user sh -c 'cd && dryout case list --json | grep -q Larkfield'
as_user sh -c 'cd && dryout suspects 1 && dryout next 1 | head -20'
as_user sh -c 'cd && dryout snapshot 1 --view probe -o probe.png && test -s probe.png'
as_user sh -c 'cd && dryout report 1 -o report.pdf && head -c 5 report.pdf | grep -q %PDF-'
test -s "$root/usr/share/man/man1/dryout.1.gz"
test -s "$root/usr/share/bash-completion/completions/dryout"
test -s "$root/usr/share/applications/dryout.desktop"
inside apt-get remove -y -qq dryout >/dev/null
test ! -e "$root/usr/bin/dryout" && test -e "$root/tmp/novice/.local/share/dryout/cases.db"
set +x
echo "installed, worked and removed in $root; the user's cases are still there"
