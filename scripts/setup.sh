#!/usr/bin/env bash
# Make .venv hold exactly what requirements/<set>.txt lists, and shedlight itself (editable).
# Usage: scripts/setup.sh run|dev        The interpreter may be chosen: PYTHON=/path/to/python3
set -euo pipefail
cd "$(dirname "$0")/.."

set_name=${1:?usage: scripts/setup.sh run|dev}
stamp=.venv/.ready-$set_name
export PIP_DISABLE_PIP_VERSION_CHECK=1 PIP_NO_INPUT=1 PIP_ROOT_USER_ACTION=ignore

say() { printf '==> %s\n' "$*"; }
stop() {
    printf 'shedlight setup: %s\n' "$*" >&2
    exit 2
}

recent_enough() {
    "$1" -c 'import sys; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1
}

find_python() {
    if [[ -n ${PYTHON:-} ]]; then
        recent_enough "$PYTHON" || stop "PYTHON=$PYTHON does not run or is older than Python 3.11"
        echo "$PYTHON"
        return
    fi
    local candidate
    for candidate in python3.13 python3.12 python3.11 python3; do
        if recent_enough "$candidate"; then
            echo "$candidate"
            return
        fi
    done
    stop "needs Python 3.11 or newer; install it, or name it: make PYTHON=/path/to/python3"
}

# Debian keeps the part of Python that makes environments in a package of its own.
ensure_venv_module() {
    local python=$1 package
    "$python" -c 'import ensurepip, venv' >/dev/null 2>&1 && return
    package=$("$python" -c 'import sys; print("python%d.%d-venv" % sys.version_info[:2])')
    if [[ $(id -u) -ne 0 ]] || ! command -v apt-get >/dev/null; then
        stop "$python cannot make environments; install $package (Debian, as root:" \
            "apt-get install $package) and try again"
    fi
    say "Installing $package, which $python needs to make an environment (apt-get, as root)"
    apt-get update -qq
    DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends \
        "$package" >/dev/null
}

# The tests of the page drive a real browser.
ensure_browser() {
    command -v chromium >/dev/null && return
    if [[ $(id -u) -ne 0 ]] || ! command -v apt-get >/dev/null; then
        stop "the tests of the page need Chromium; install it (Debian, as root:" \
            "apt-get install chromium) and try again"
    fi
    say "Installing Chromium, which the tests of the page drive (apt-get, as root)"
    apt-get update -qq
    DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends \
        chromium >/dev/null
}

make_environment() {
    local python
    python=$(find_python)
    ensure_venv_module "$python"
    say "Making the environment .venv with $python ($("$python" -V))"
    "$python" -m venv --clear .venv
}

# An environment that was moved, or whose interpreter is gone, cannot be mended.
usable() {
    [[ -x .venv/bin/python && -f .venv/.home && $(<.venv/.home) == "$PWD" ]] &&
        recent_enough .venv/bin/python
}

usable || make_environment
[[ $set_name == run ]] || ensure_browser
rm -f "$stamp"
pwd >.venv/.home

say "Installing the packages of requirements/$set_name.txt (hashes checked; a minute at first)"
.venv/bin/python -m pip install --quiet --quiet --require-hashes -r "requirements/$set_name.txt"

say "Installing shedlight itself, editable"
.venv/bin/python -m pip install --quiet --quiet --no-index --no-deps --no-build-isolation --editable .
touch "$stamp"
# The development set holds the other one whole.
[[ $set_name == run ]] || touch .venv/.ready-run
