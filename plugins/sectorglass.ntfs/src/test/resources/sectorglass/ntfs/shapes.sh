#!/bin/sh
# The volume that the fuzz targets change: small, but with every shape of record. Needs mkntfs, the FUSE driver and setfattr.
# usage: volume.sh FILE.gz
set -eu
out=$1; work=$(mktemp -d); image=$work/volume.img; m=$work/mnt; mkdir "$m"
truncate -s 3M "$image"
mkntfs -F -Q -T -s 512 -c 512 -p 0 -H 0 -S 0 -L SMALL "$image" >/dev/null
ntfs-3g -o streams_interface=windows,compression "$image" "$m"
mkdir "$m/folder" "$m/many" "$m/packed"
for i in $(seq 1 60); do echo "file $i" > "$m/many/a-name-of-middling-length-$i.txt"; done
setfattr -n system.ntfs_attrib_be -v 0x00000800 "$m/packed"
python3 - "$m" <<'PY'
import sys
m = sys.argv[1]
open(m + '/packed/text.txt', 'wb').write(b''.join(b'line %06d the same text again\n' % i for i in range(1400)))
open(m + '/folder/plain.bin', 'wb').write(bytes(i * i >> 3 & 255 for i in range(20000)))
open(m + '/folder/plain.bin:second', 'wb').write(bytes(3000))
f = open(m + '/folder/sparse.bin', 'wb'); f.truncate(200000); f.seek(100000); f.write(b'HELLO'); f.close()
# two files written by turns: many runs, so that the records need an attribute list
a = open(m + '/folder/turn-a.bin', 'wb'); b = open(m + '/folder/turn-b.bin', 'wb')
for i in range(330):
    for f in (a, b):
        f.write(bytes([i % 256]) * 512); f.flush()
PY
ln "$m/folder/plain.bin" "$m/many/link.bin"
echo gone > "$m/folder/gone.txt"; sync; rm "$m/folder/gone.txt"; rm "$m/many/a-name-of-middling-length-30.txt"
for i in $(seq 2 2 58); do rm -f "$m/many/a-name-of-middling-length-$i.txt"; done
fusermount -u "$m"
i=0; while pgrep -f "$image" >/dev/null && [ $i -lt 50 ]; do sleep 0.1; i=$((i + 1)); done
# the table of capital letters does not pack; whoever loads the volume writes it anew
dd if=/dev/zero of="$image" bs=512 seek=1336 count=256 conv=notrunc status=none
gzip -9 -n < "$image" > "$out"
rm -r "$work"
