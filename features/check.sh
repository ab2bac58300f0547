#!/bin/sh
# Installs what the tests need on a fresh Debian with JDK 17 and Maven, then builds and passes all tests.
# CORPUS may name a folder with the image corpus; without it the tests that need it are skipped and counted.
set -eu
house=$(cd "$(dirname "$0")/.." && pwd)

packages="xvfb xauth libgtk-3-0 openbox xdotool imagemagick x11-utils dbus-x11 fonts-dejavu-core adwaita-icon-theme librsvg2-common
fdisk parted util-linux dosfstools mtools exfatprogs ntfs-3g e2fsprogs xfsprogs btrfs-progs f2fs-tools mdadm lvm2 cryptsetup-bin
genisoimage xorriso udftools hfsutils apfsprogs xz-utils bzip2 zip zstd lz4 file faketime fuse3 attr poppler-utils qpdf sqlite3 unzip flac grub-rescue-pc"
missing=""
for package in $packages; do
  dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'install ok installed' || missing="$missing $package"
done
if [ -n "$missing" ]; then
  if [ "$(id -u)" = 0 ]; then as_root=""; else as_root="sudo"; fi
  $as_root apt-get update -qq
  # shellcheck disable=SC2086
  DEBIAN_FRONTEND=noninteractive $as_root apt-get install -y -qq --no-install-recommends -o DPkg::Lock::Timeout=300 $missing >/dev/null
fi

cd "$house"
status=0
mvn -B -ntp ${MAVEN_OPTIONS:-} clean install "-Dcorpus=${CORPUS:-}" || status=$?
sh features/count-tests.sh
exit $status
