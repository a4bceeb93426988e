#!/bin/sh
# Memory that runs out, disks that fail or are full, kills at any moment: one line, its exit, and on the disk one complete
# set, old or new. Three commands at a place or two here, for the sanitizers; all in
# t_heavy_faults.sh.
sh "$(dirname -- "$0")/try.sh" "${VINEHAND_FAULTS:-1}" "${VINEHAND_KILLS:-0}"
