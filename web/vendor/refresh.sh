#!/usr/bin/env bash
# Fetches the vendored modules again from npm, at the versions below, and writes SHA256SUMS anew.
#
#   web/vendor/refresh.sh
#
# The files are the makers' own minified ES modules, byte for byte; only their names are shorter. After a change of
# version: read the diff of SHA256SUMS, update README.md here and the table in NOTICE.md, run the tests.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")"

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# package@version, then pairs "path in the package > name here".
take() {
    local package=$1 archive
    shift
    archive=$(cd "$work" && npm pack --silent "$package")
    rm -rf "$work/package"
    tar -xzf "$work/$archive" -C "$work"
    while (($#)); do
        cp "$work/package/$1" "$2"
        chmod 644 "$2"
        shift 2
    done
}

take preact@11.2.0 \
    dist/preact.mjs preact.mjs \
    hooks/dist/hooks.mjs preact-hooks.mjs \
    jsx-runtime/dist/jsxRuntime.mjs preact-jsx-runtime.mjs \
    LICENSE LICENSE-preact.txt
take @preact/signals@2.11.4 dist/signals.module.js preact-signals.mjs LICENSE LICENSE-preact-signals.txt
take @preact/signals-core@1.14.5 dist/signals-core.module.js preact-signals-core.mjs LICENSE LICENSE-preact-signals-core.txt

LC_ALL=C sha256sum -- *.mjs LICENSE-*.txt >SHA256SUMS
