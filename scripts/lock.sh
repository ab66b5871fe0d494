#!/usr/bin/env bash
# Renew the lock files: exact versions with hashes, for every Python and machine we support.
# Versions already locked stay unless pyproject.toml forbids them; UPGRADE=1 renews all.
set -euo pipefail
cd "$(dirname "$0")/.."

tools=$(mktemp -d)
trap 'rm -rf "$tools"' EXIT
"${PYTHON:-python3}" -m venv "$tools"
"$tools/bin/pip" install --quiet --quiet --disable-pip-version-check uv

compile() {
    "$tools/bin/uv" pip compile pyproject.toml "$@" --quiet --universal --python-version 3.11 \
        --generate-hashes --no-emit-index-url --no-emit-find-links ${UPGRADE:+--upgrade} \
        --custom-compile-command "make lock"
}

echo "==> Locking requirements/run.txt"
compile --group build -o requirements/run.txt
echo "==> Locking requirements/dev.txt"
compile --group build --group dev --constraint requirements/run.txt -o requirements/dev.txt
