#!/bin/sh
# Makes docs/screenshots/*.png from the installation that features/uitest tested: light and dark, 1920x1080, 1366x768, and 200 %;
# Recover and Learn also in German.
set -eu
house=$(cd "$(dirname "$0")/../.." && pwd)
install="$house/features/uitest/target/sectorglass"
[ -d "$install" ] || { echo "Build and test first: mvn verify -pl features/uitest" >&2; exit 2; }
pictures="${1:-$house/docs/screenshots}"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

shoot() { # WIDTHxHEIGHT suffix scale screen classes language
  GDK_SCALE=$3 xvfb-run -a -s "-screen 0 $4x24" java -XX:TieredStopAtLevel=1 "-Duser.language=${6:-en}" -Duser.country=GB \
    "-Duitest.class=$5" "-Duitest.pictures=$pictures" "-Duitest.size=$1" "-Duitest.suffix=$2" "-Duser.home=$work/home" \
    -jar "$install"/plugins/org.eclipse.equinox.launcher_*.jar -application sectorglass.workbench.tests -nosplash -consoleLog \
    -configuration "$work/configuration" -data "$work/workspace-$5$2"
}
for classes in Screenshots SectorsScreenshots HabitsScreenshots RecoverScreenshots LearnScreenshots; do
  shoot 1920x1080 "" 1 1920x1080 $classes
  shoot 1366x768 -1366x768 1 1366x768 $classes
  shoot 1280x720 -200-percent 2 2560x1440 $classes
done
shoot 1366x768 -1366x768 1 1366x768 RecoverScreenshots de
shoot 1366x768 -1366x768-de 1 1366x768 LearnScreenshots de
