#!/bin/bash
# Makes a large image that holds no lost disk, searches it, and asks for proposals: there must be none.
# usage: no-false-proposal.sh random|compressed|volumes FOLDER [MEBIBYTES]
# FOLDER takes the image while the command runs: 10240 MiB unless told otherwise, in memory (/dev/shm) or on a disk. SECTORGLASS names the
# launcher. Status 0: no proposal, and every structure found inside a file is said to be inside it.
set -eu -o pipefail
here=$(cd "$(dirname "$0")" && pwd)
glass=${SECTORGLASS:-$here/../product/target/sectorglass/sectorglass}
kind=$1; folder=$2; size=${3:-10240}
work=$(mktemp -d "$folder/no-false-proposal.XXXXXX"); image=$work/image; parts=$work/parts; mkdir "$parts"
trap 'rm -rf "$work"' EXIT
export MTOOLS_SKIP_CHECK=1

# a compressed file of about $2 MiB of data, of kind $1
packed() {
  base64 -w 0 /dev/urandom 2>/dev/null | head -c "$2M" | case $1 in gz) gzip -1;; xz) xz -0;; bz2) bzip2 -1;; zst) zstd -q -1;; *) cat;; esac > "$parts/x" || true
  case $1 in zip) (cd "$parts" && zip -q -1 y.zip x && mv y.zip x);; esac
}

# an empty FAT32 volume over the whole image, with free space in pieces at its start
outer() {
  truncate -s "${size}M" "$image"; mkfs.fat -F 32 -s 8 "$image" > /dev/null
  head -c 300K /dev/urandom > "$parts/x"
  for i in $(seq 100); do mcopy -i "$image" "$parts/x" "::/small$i"; done
  for i in $(seq 1 2 100); do mdel -i "$image" "::/small$i"; done
}

# copies $1 into the volume under the name $2; false where it is full
store() { mcopy -i "$image" "$1" "::/$2" 2> /dev/null; }

case $kind in
random) head -c "${size}M" /dev/urandom > "$image" ;;
compressed)
  outer; n=0; pool=()
  # a pool of distinct files, stored again and again until the volume is full
  for round in $(seq 1 6); do for form in gz zip zst bz2 xz; do
    packed $form $((5 + 3 * round)); mv "$parts/x" "$parts/$round.$form"; pool+=("$parts/$round.$form")
  done; done
  while :; do for file in "${pool[@]}"; do n=$((n + 1)); store "$file" "$n.${file##*.}" || break 2; done; done
  echo "files $n, distinct ${#pool[@]}" ;;
volumes)
  outer; n=0; pool=()
  volume() { truncate -s "$2M" "$parts/v"; case $1 in
    ntfs) mkntfs -F -Q -q -p 2048 -H 255 -S 63 "$parts/v" > /dev/null 2>&1;; exfat) mkfs.exfat "$parts/v" > /dev/null;;
    ext4) mke2fs -q -F -t ext4 "$parts/v";; fat*) mkfs.fat -F "${1#fat}" -h 2048 "$parts/v" > /dev/null
      mmd -i "$parts/v" ::/letters; mcopy -i "$parts/v" "$parts/x" ::/letters/x;; esac; }
  disk() { # $1 label, $2 kind of volume, $3 its MiB
    truncate -s "$(($3 + 3))M" "$parts/d"
    printf 'label: %s\nstart=2048,size=%d\n' "$1" $(($3 * 2048)) | sfdisk -q --no-reread "$parts/d" > /dev/null
    volume "$2" "$3"; dd if="$parts/v" of="$parts/d" bs=1M seek=1 conv=notrunc status=none; rm "$parts/v"; }
  for inner in ntfs exfat ext4 fat32 fat16; do
    volume $inner 40; mv "$parts/v" "$parts/$inner"; pool+=("$parts/$inner")
    for label in dos gpt; do disk $label $inner 40; mv "$parts/d" "$parts/$label-$inner"; pool+=("$parts/$label-$inner"); done
  done
  while :; do for file in "${pool[@]}"; do n=$((n + 1)); store "$file" "$n-${file##*/}" || break 2; done; done
  echo "files $n: ${pool[*]##*/}" ;;
*) sed -n '2,6p' "$0" >&2; exit 2 ;;
esac
rm -rf "$parts"

sync "$image"; echo "$kind: $(stat -c %s "$image") bytes"
start=$(date +%s.%N)
"$glass" search "$image" --job "$work/job" --json > "$work/search.json"
middle=$(date +%s.%N)
"$glass" propose "$image" --search --job "$work/job" --json > "$work/propose.json"
end=$(date +%s.%N)
python3 - "$work" "$start" "$middle" "$end" <<'P'
import collections, json, sys
work, start, middle, end = sys.argv[1], *map(float, sys.argv[2:])
found = json.load(open(work + "/search.json"))
count = lambda all, key: dict(collections.Counter(one[key] for one in all))
print("search %.0f s; propose %.0f s; unread sectors %d" % (middle - start, end - middle, found["unreadSectors"]))
print("volumes by state", count(found["volumes"], "state"))
print("candidates by state", count(found["candidates"], "state"))
bad = [v for v in found["volumes"] if v["state"] == "in-file" and not (v["file"] and v["file"]["path"])]
proposals = json.load(open(work + "/propose.json"))["proposals"]
for one in proposals:
    print("PROPOSED", one["id"], one["title"])
for one in bad:
    print("NO FILE NAMED", one["kind"], one["firstByte"])
for one in found["volumes"]:
    if one["state"] != "in-file" and one["firstByte"] > 0:
        print("OUTSIDE", one["state"], one["kind"], one["firstByte"], one["confidence"], one["proven"])
print("proposals", len(proposals))
sys.exit(1 if proposals or bad else 0)
P
