#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Takes a fresh Debian 12 to a built, run or tested Wirewright: sh cmake/bootstrap.sh run | test
# Packages come from Debian (cmake/packages.txt) and only when missing; files go to build/ and nowhere else.
set -eu
export LC_ALL=C.UTF-8
asked_platform=${QT_QPA_PLATFORM:-}
export QT_QPA_PLATFORM="${QT_QPA_PLATFORM:-offscreen}"

root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
cd "$root"

say() { printf '%s\n' "$*"; }
fail() {
  printf 'bootstrap: %s\n' "$*" >&2
  exit 1
}

# The packages of the named groups that are not installed, on one line.
missing_packages() {
  wanted=$(awk -v groups=" $* " '!/^#/ && NF == 2 && index(groups, " " $1 " ") { print $2 }' cmake/packages.txt)
  if ! command -v dpkg-query >/dev/null; then
    printf '%s\n' "$wanted" | tr '\n' ' '
    return
  fi
  # shellcheck disable=SC2016,SC2086
  installed=$(dpkg-query -W -f='${Package} ${db:Status-Status}\n' $wanted 2>/dev/null |
    awk '$2 == "installed" { print $1 }')
  printf '%s\n' "$wanted" | awk -v have="$(printf '%s' "$installed" | tr '\n' ' ')" '
    BEGIN { split(have, names, " "); for (i in names) installed[names[i]] = 1 }
    NF && !($1 in installed) { printf "%s ", $1 }'
}

as_root() {
  if [ "$(id -u)" -eq 0 ]; then
    "$@"
  else
    sudo "$@"
  fi
}

# What our own programs keep between runs (the index of fonts) stays in build/ too.
contained() { env XDG_CACHE_HOME="$root/build/cache" "$@"; }

can_install() {
  command -v apt-get >/dev/null || return 1
  [ "$(id -u)" -eq 0 ] && return 0
  command -v sudo >/dev/null || return 1
  [ -t 0 ] || sudo -n true 2>/dev/null
}

need_packages() {
  missing=$(missing_packages "$@")
  [ -n "$missing" ] || return 0
  can_install || fail "these Debian packages are missing and cannot be installed from here: $missing"
  say "Installing from Debian: $missing"
  as_root apt-get update -qq
  # shellcheck disable=SC2086
  as_root env DEBIAN_FRONTEND=noninteractive \
    apt-get install -qq -y --no-install-recommends -o Dpkg::Use-Pty=0 $missing >/dev/null
}

# As many compilers as there are cores, each with about 1.5 GB of memory.
jobs() {
  awk -v cores="$(nproc)" '/^MemAvailable:/ { free = int($2 / 1572864) }
    END { n = (free > 0 && free < cores) ? free : cores; print (n > 0 ? n : 1) }' /proc/meminfo
}

configure() { # preset, further options
  preset=$1
  shift
  mkdir -p "build/$preset"
  cmake --preset "$preset" "$@" >"build/$preset/configure.log" 2>&1 || {
    cat "build/$preset/configure.log" >&2
    fail "configuring the $preset build failed"
  }
}

build() { # preset, targets
  preset=$1
  shift
  set -- --preset "$preset" --parallel "$(jobs)" ${1:+--target "$@"}
  if [ -t 1 ]; then
    cmake --build "$@" || fail "the $preset build failed"
  else
    cmake --build "$@" >"build/$preset/build.log" 2>&1 || {
      cat "build/$preset/build.log" >&2
      fail "the $preset build failed"
    }
  fi
}

# Runs ctest, shows what did not pass, and closes with the one line that counts.
run_tests() { # test preset, build folder
  log=$root/$2/tests.log
  {
    contained ctest --preset "$1" --parallel "$(jobs)" --output-log "$log" || true
  } 2>&1 | grep --line-buffered -Ev '^ *Start +[0-9]+: | Passed +[0-9.]+ sec$|^ *$' || true
  awk '/% tests passed, [0-9]+ tests failed out of [0-9]+/ { failed = $4; total = $NF }
    /\*\*\*Skipped / { skipped++ }
    /\*\*\*Not Run \(Disabled\)/ { skipped++; total++ }
    END {
      passed = total - failed - skipped
      printf "%d passed, %d failed", passed, failed
      if (skipped) printf ", %d skipped", skipped
      print ""
      exit (failed > 0 || passed <= 0)
    }' "$log"
}

# The findings of one job, from its JSON, in one line.
summary() { # name, JSON file
  jq -r --arg name "$1" '
    def words: {stop: "that stop the job", fail: "that will not work", warn: "marginal", note: "to note"};
    .findings as $all
    | [("stop", "fail", "warn", "note") as $s
       | ($all | map(select(.severity == $s)) | length) as $n | select($n > 0) | "\($n) \(words[$s])"]
    | "  \($name): " + (if length == 0 then "no findings" else "findings: " + join(", ") end)
      + ($all | if length > 0 then "\n    \(.[0].text)" else "" end)' "$2"
}

# Every demo job through the chain: checked, then printed as a report.
run_demos() {
  ww=$root/build/release/bin/ww
  out=build/demo-reports
  mkdir -p "$out"
  count=0
  for sheet in demo-data/*.json; do
    [ -e "$sheet" ] || fail "demo-data/ holds no job"
    name=$(basename "$sheet" .json)
    status=0
    contained "$ww" check --json "$sheet" >"$out/$name.json" || status=$?
    [ "$status" -le 1 ] || fail "ww check $sheet ended with $status"
    contained "$ww" report "$sheet" -o "$out/$name.pdf" || status=$?
    [ "$status" -le 1 ] || fail "ww report $sheet ended with $status"
    summary "$name" "$out/$name.json"
    count=$((count + 1))
  done
  ln -sfn release/bin/ww build/ww
  ln -sfn release/bin/wirewright build/wirewright
  say "$count jobs checked. Their reports: $out/*.pdf. The command: build/ww. The window: build/wirewright"
}

# The window, where there is a screen to open it on; its jobs stay in build/ too.
open_window() {
  [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ] && [ "$asked_platform" != offscreen ] || return 0
  say "Opening the window on build/jobs; closing it ends this command."
  if [ -n "$asked_platform" ]; then QT_QPA_PLATFORM=$asked_platform; else unset QT_QPA_PLATFORM; fi
  contained build/wirewright --data build/jobs
}

lint() {
  sh cmake/lint.sh text || fail "lint found faults"
}

case "${1:-}" in
  run)
    say "Wirewright: building the program in build/release and taking the demo jobs through it"
    need_packages build run
    # The tests join the build only where their packages are installed.
    if [ -z "$(missing_packages test)" ]; then tests=ON; else tests=OFF; fi
    configure release "-DWIREWRIGHT_TESTS=$tests"
    build release ww wirewright
    run_demos
    open_window
    ;;
  test)
    say "Wirewright: lint, build in build/release and the tests fast, reference, window and fuzz"
    need_packages build run test
    lint
    configure release -DWIREWRIGHT_TESTS=ON
    build release
    sh cmake/lint.sh tidy build/release || fail "clang-tidy found faults"
    run_tests release build/release
    ;;
  long)
    say "Wirewright: the long tests in build/release"
    need_packages build run test
    configure release -DWIREWRIGHT_TESTS=ON
    build release
    run_tests long build/release
    ;;
  sanitize)
    say "Wirewright: the tests under the address and undefined-behaviour sanitizers in build/sanitize"
    need_packages build run test
    configure sanitize -DWIREWRIGHT_TESTS=ON
    build sanitize
    run_tests sanitize build/sanitize
    ;;
  pictures)
    say "Wirewright: every place as a picture, in build/pictures"
    need_packages build run test
    configure release -DWIREWRIGHT_TESTS=ON
    build release ww_pictures
    contained build/release/bin/ww_pictures build/pictures
    ;;
  start)
    say "Wirewright: from process start to the first key taken, with 100,000 jobs in the store"
    need_packages build run test
    configure release -DWIREWRIGHT_TESTS=ON
    build release ww_start
    contained build/release/bin/ww_start build/start
    ;;
  bench)
    shift
    say "Wirewright: the benchmarks in build/release; what follows is passed on to them"
    need_packages build run test
    configure release -DWIREWRIGHT_TESTS=ON
    build release ww_bench
    build/release/bin/ww_bench "$@"
    ;;
  lint)
    say "Wirewright: lint"
    need_packages build run test
    lint
    configure release -DWIREWRIGHT_TESTS=ON
    sh cmake/lint.sh tidy build/release || fail "clang-tidy found faults"
    ;;
  format)
    say "Wirewright: formatting the C++ files in place"
    need_packages test
    sh cmake/lint.sh format
    ;;
  *)
    say "usage: sh cmake/bootstrap.sh run|test|lint|format|long|sanitize|bench|pictures|start" >&2
    exit 2
    ;;
esac
