#!/usr/bin/env bash
# Debian packages that some tests need: a browser, a font for stills, a reader of scans, a voice. Where they cannot be
# installed the tests that need them are skipped and say so.
set -euo pipefail

missing=()
command -v chromium >/dev/null || command -v chromium-browser >/dev/null || command -v google-chrome >/dev/null || missing+=(chromium)
ls /usr/share/fonts/truetype/dejavu/DejaVuSans.ttf >/dev/null 2>&1 || missing+=(fonts-dejavu-core)
command -v tesseract >/dev/null || missing+=(tesseract-ocr)
command -v flite >/dev/null || missing+=(flite) # the synthetic voice of the tests of recordings
((${#missing[@]})) || exit 0

if [[ "$(id -u)" == 0 ]] && command -v apt-get >/dev/null; then
  echo "Installing ${missing[*]}"
  export DEBIAN_FRONTEND=noninteractive
  apt-get update -qq
  apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
else
  echo "Not installed: ${missing[*]}. The tests that need them are skipped. On Debian: sudo apt-get install ${missing[*]}"
fi
