#!/bin/sh
# As t_faults.sh, at more places. All of them by hand: VINEHAND_FAULTS=0 VINEHAND_KILLS=200 (half an hour on an idle core).
sh "$(dirname -- "$0")/try.sh" "${VINEHAND_FAULTS:-3}" "${VINEHAND_KILLS:-30}"
