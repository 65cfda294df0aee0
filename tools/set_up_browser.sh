#!/bin/sh
# Bring the browser in which the tests open pages: Chromium without windows, which takes half the time of one with.
# As root on Debian it comes as a package; elsewhere any Chromium that is there does. Without one the tests that
# need it are skipped by name.
set -u
command -v chromium-headless-shell >/dev/null && exit 0
if command -v apt-get >/dev/null && [ "$(id -u)" = 0 ]; then
    apt-get update -qq >/dev/null 2>&1
    DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends \
        chromium-headless-shell >/dev/null 2>&1
fi
for browser in chromium-headless-shell chromium chromium-browser google-chrome; do
    command -v "$browser" >/dev/null && exit 0
done
echo "Tests: there is no Chromium, so that tests which open pages are skipped (Debian: apt-get install" \
    "chromium-headless-shell)."
exit 0
