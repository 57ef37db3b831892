#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The one lint entry: sh cmake/lint.sh text | tidy BUILD_FOLDER | format
# -nt is POSIX 2024, and dash has it.
# shellcheck disable=SC3013
set -eu
export LC_ALL=C.UTF-8

root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
cd "$root"

git_here() { git -c safe.directory="$root" "$@" 2>/dev/null; }

# Tracked files whose names match the given extended regular expression; all files where there is no git.
tracked() {
  { git_here ls-files || find . -path ./build -prune -o -type f -print | sed 's|^\./||'; } |
    grep -E "$1" | while IFS= read -r file; do [ ! -f "$file" ] || printf '%s\n' "$file"; done
}

cores=$(nproc)
cpp='\.(cpp|h)$'
faults=0

# Prints what a check found, if anything, under a heading that says what is wrong.
fault() { # heading, findings
  [ -n "$2" ] || return 0
  printf 'lint: %s\n%s\n' "$1" "$2" >&2
  faults=1
}

search() { # pattern of names, grep options and pattern
  names=$1
  shift
  tracked "$names" | xargs -r -d '\n' grep -HnIE "$@" || true
}

text() {
  fault "not formatted (sh cmake/bootstrap.sh format)" \
    "$(tracked "$cpp" | xargs -r -d '\n' -P "$cores" -n 1 sh cmake/lint.sh format-one | sort)"
  fault "no SPDX line in the first two lines" \
    "$(tracked "$cpp|\.(cmake|sh|py)$|(^|/)CMakeLists\.txt$|^\.ci/" | xargs -r -d '\n' awk '
      FNR == 1 { seen[FILENAME] = 0 }
      FNR <= 2 && /SPDX-License-Identifier: GPL-3\.0-or-later/ { seen[FILENAME] = 1 }
      END { for (name in seen) if (!seen[name]) print name }')"
  fault "Qt inside core/" "$(search '^core/' '^[[:space:]]*#[[:space:]]*include[[:space:]]*[<"]Q[A-Zt]')"
  fault "paths of one machine" "$(search . '(^|[^[:alnum:]_.])/(home|root|work|mnt|tmp|Users)/')"
  fault "files over 500 lines" \
    "$(tracked "$cpp|\.(cmake|sh)$" | xargs -r -d '\n' wc -l | awk '$2 != "total" && $1 > 500')"
  fault "tests skipped, disabled or unable to fail" \
    "$(search '^tests/.*\.(cpp|h)$' 'GTEST_SKIP|DISABLED_|QSKIP|SUCCEED\(\)|(EXPECT|ASSERT)_TRUE\(true\)'
      search '^tests/.*CMakeLists\.txt$' 'DISABLED +(TRUE|ON|1)|WILL_FAIL')"
  fault "shell scripts that do not parse" \
    "$(tracked '\.sh$' | while IFS= read -r script; do sh -n "$script" 2>&1 || true; done
      tracked '^\.ci/run$' | while IFS= read -r script; do bash -n "$script" 2>&1 || true; done)"
  fault "JSON files that do not parse" \
    "$(tracked '\.json$' | grep -v '^tests/fuzz/' | while IFS= read -r file; do
      jq empty "$file" 2>&1 | sed "s|^|$file: |" || true
    done)"
  [ "$faults" -eq 0 ] || exit 1
}

# The sources to tidy: what differs from the upstream branch, or all of core/ where there is none.
tidy_sources() {
  if upstream=$(git_here merge-base HEAD '@{upstream}'); then
    git_here diff --name-only --diff-filter=d "$upstream" | grep -E "$cpp" | while IFS= read -r file; do
      case $file in
        *.h) [ ! -f "${file%.h}.cpp" ] || printf '%s\n' "${file%.h}.cpp" ;;
        *) printf '%s\n' "$file" ;;
      esac
    done | sort -u
  else
    tracked '^core/.*\.cpp$'
  fi
}

# Whether any of the files named on standard input is newer than the given one, or gone.
any_newer() {
  while IFS= read -r file; do
    [ -e "$file" ] && [ ! "$file" -nt "$1" ] || return 0
  done
  return 1
}

# One source; a stamp beside the build says that neither it nor what it includes has changed since it was clean.
tidy_one() { # build folder, source
  stamp=$1/tidy/$2.clean
  deps=$1/tidy/includes.txt
  if [ -f "$stamp" ] && awk -F '\t' -v source="$root/$2" '$1 == source { found = 1; print $2 }
      END { exit !found }' "$deps" >"$stamp.includes" &&
    ! any_newer "$stamp" <"$stamp.includes" && [ ! .clang-tidy -nt "$stamp" ]; then
    return 0
  fi
  mkdir -p "$(dirname "$stamp")"
  : >"$stamp.new"
  clang-tidy-14 --quiet -p "$1" "$2" 2>"$stamp.errors" || {
    grep -v 'warnings\{0,1\} generated' "$stamp.errors" >&2 || true
    return 1
  }
  mv "$stamp.new" "$stamp"
}

tidy() { # build folder
  mkdir -p "$1/tidy"
  ninja -C "$1" -t deps 2>/dev/null | awk -v folder="$root/$1/" '
    /^[^ ]/ { source = "" }
    /^    / {
      name = substr($0, 5)
      if (source == "") source = name
      if (name !~ /^\//) name = folder name
      if (name !~ /^\/usr\//) print source "\t" name
    }' >"$1/tidy/includes.txt"
  tidy_sources | xargs -r -d '\n' -P "$cores" -n 1 sh cmake/lint.sh tidy-one "$1"
}

case "${1:-}" in
  text) text ;;
  tidy) tidy "$2" ;;
  format-one) clang-format-14 --dry-run -Werror "$2" 2>/dev/null || printf '%s\n' "$2" ;;
  tidy-one) tidy_one "$2" "$3" ;;
  format) tracked "$cpp" | xargs -r -d '\n' -P "$cores" -n 20 clang-format-14 -i ;;
  *)
    printf 'usage: sh cmake/lint.sh text | tidy BUILD_FOLDER | format\n' >&2
    exit 2
    ;;
esac
