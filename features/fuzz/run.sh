#!/bin/sh
# Runs every fuzz target for the time its annotation names, one process after the other, each with a heap of at most 700 MB.
# usage: run.sh [PATTERN]     only targets whose name holds PATTERN
cd "$(dirname "$0")/../.." || exit 1
status=0
for test in $(find features/fuzz/src/test/java -name '*FuzzTest.java' | sort); do
  class=$(basename "$test" .java)
  for target in $(grep -A1 '@FuzzTest' "$test" | sed -n 's/.*void \([A-Za-z0-9]*\)(.*/\1/p' | grep "${1:-}"); do
    echo "$class#$target"
    JAZZER_FUZZ=1 mvn -B -q -ntp test -Pfuzz -pl features/fuzz "-Dtest=$class#$target" -Dsurefire.args=-Xmx700m || status=1
  done
done
exit $status
