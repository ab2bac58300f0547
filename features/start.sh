#!/bin/sh
# Builds what is missing and runs the main job on the built-in demo disk: a window where a display exists, text otherwise.
set -eu
house=$(cd "$(dirname "$0")/.." && pwd)
install="$house/features/product/target/sectorglass"
demo="$house/features/product/target/demo"

if [ ! -x "$install/sectorglass" ]; then
  echo "Building Sectorglass (the first time takes some minutes) ..." >&2
  (cd "$house" && mvn -q -B -ntp install -DskipTests -pl features/product -am)
fi
if [ ! -f "$demo/demo-gpt.img" ]; then
  "$install/sectorglass" demo --to "$demo" --quiet
fi
if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
  exec "$install/sectorglass" "$demo/demo-gpt.img"
fi
echo "== layout =="
"$install/sectorglass" layout "$demo/demo-gpt.img"
echo
echo "== verify =="
# the demo disk has faults on purpose: status 1 is what verify has to say here
"$install/sectorglass" verify "$demo/demo-gpt.img" || [ $? -eq 1 ]
echo
echo "== explain LBA 0 =="
"$install/sectorglass" explain "$demo/demo-gpt.img" --lba 0
