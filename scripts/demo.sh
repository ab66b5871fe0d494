#!/usr/bin/env bash
# Run the main job on every description in examples/: verdicts, drawings, calculation.
set -euo pipefail
cd "$(dirname "$0")/.."

shedlight=.venv/bin/shedlight

say() { printf '==> %s\n' "$*"; }

# Status 1 says that the bushing fails a check: a result. Anything above is a fault and stops us.
check() {
    local status=0
    "$shedlight" check "$@" || status=$?
    if ((status > 1)); then
        printf 'demo: "shedlight check %s" ended with status %d\n' "$*" "$status" >&2
        exit "$status"
    fi
}

for description in examples/*.toml; do
    name=$(basename "$description" .toml)
    out=out/$name
    mkdir -p "$out"

    printf '\n'
    say "$description: checking (a failed check is a result here)"
    check "$description"
    check "$description" --json >"$out/check.json"
    [[ -s $out/check.json ]] || {
        echo "demo: shedlight check --json wrote nothing" >&2
        exit 3
    }

    say "$description: drawing the section"
    for format in svg png pdf; do
        "$shedlight" draw "$description" -o "$out/section.$format"
    done

    say "$description: writing the calculation"
    for format in pdf html; do
        "$shedlight" report "$description" -o "$out/calculation.$format"
    done
done

printf '\n'
say "Done. The outputs:"
for description in examples/*.toml; do
    out=out/$(basename "$description" .toml)
    summary=$(sed -n 's/^ "summary": "\(.*\)",$/\1/p' "$out/check.json")
    verdict=$(sed -n 's/^ "verdict": "\(.*\)",$/\1/p' "$out/check.json")
    printf '  %s: %s (%s)\n' "$description" "$verdict" "$summary"
    printf '    %s\n' "$out"/*
done
