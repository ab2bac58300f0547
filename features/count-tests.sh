#!/bin/sh
# Adds up the test reports of all modules and prints one closing line.
house=$(cd "$(dirname "$0")/.." && pwd)
find "$house/plugins" "$house/features" -path '*/target/*' \( -name 'TEST-*.xml' -o -name 'uitest-result.txt' \) -exec cat {} + | awk '
  /<testsuite / {
    tests += value($0, " tests"); failures += value($0, " failures"); errors += value($0, " errors"); skipped += value($0, " skipped")
  }
  /^Tests run: / {
    split($0, part, /[:,]/); tests += part[2]; failures += part[4]; errors += part[6]; skipped += part[8]
  }
  function value(line, name,    at, rest) {
    at = index(line, name "=\""); if (!at) return 0
    rest = substr(line, at + length(name) + 2); return rest + 0
  }
  END { printf "%d passed, %d failed, %d skipped\n", tests - failures - errors - skipped, failures + errors, skipped }'
