#!/bin/sh
# A small file system that is really full: one line, exit 1, the old results whole, nothing left over. It is a tmpfs in a name
# space of mounts of its own (as root, or by user name spaces); VH_DISK=ext4, as root, by hand: an ext4 on a loop device.
if [ -z "${VH_OWN_MOUNTS:-}" ]; then
    for with in "unshare -m" "unshare -rm"; do
        # shellcheck disable=SC2086
        $with sh -c 'mount -t tmpfs none /mnt' 2>/dev/null && exec env VH_OWN_MOUNTS=1 $with sh "$0"
    done
    echo "skipped: no file system can be mounted here, neither as root nor in a user name space"
    exit 77
fi
. "$(dirname -- "$0")/lib.sh"
PARAMS=$VINEHAND_SOURCE/params
disk=$work/disk
mkdir "$disk"
if [ "${VH_DISK:-tmpfs}" = ext4 ]; then
    truncate -s 4M "$work/image" && mkfs.ext4 -q -F -m 0 "$work/image" && mount -o loop "$work/image" "$disk" || exit 1
else
    mount -t tmpfs -o size=2M none "$disk" || exit 1
fi
trap 'umount "$disk"; rm -rf "$work"' EXIT

mkdir "$disk/house"
short_season "One bay" >scenario.toml
printf '[records]\nfile = "records.csv"\n[compare]\nplanting = "slicers"\nfruits_kept = [3]\n' >>scenario.toml
{ echo date,planting,item,value,note; for day in 08 12 14 16 18; do echo "2026-05-$day,slicers,picked_kg,9,"; done; } >records.csv
cp scenario.toml "$disk/house"
{ cat records.csv; for i in $(seq 200); do echo "2026-05-19,slicers,stem_cm,$((200 + i)),a line that makes the file longer"; done; } >"$disk/house/records.csv"

# leave KB: a file takes all room but so much; 0: to the brim
leave() {
    rm -f "$disk/filler"
    sync -f "$disk" # ext4 gives freed room back late
    room=$(df -k --output=avail "$disk" | tail -1)
    [ "$1" -ge "$room" ] || head -c "$(((room - $1) * 1024))" /dev/zero >"$disk/filler" 2>"$work/none" || :
    for again in $([ "$1" -gt 0 ] || echo 1 2 3); do
        sync -f "$disk"
        head -c $((1024 * again)) /dev/zero >>"$disk/filler" 2>"$work/none" || :
    done
}
sum() { (cd "$disk" && find . -type f ! -name filler -exec sha256sum {} + | sort -k 2); }
nothing_hidden() { [ -z "$(find "$disk" -name '.vh-*')" ]; }

# on_full NAME ARG...: with no room, and with more and more until it comes through
on_full() {
    name=$1
    shift
    refused=0
    sum >"$work/old"
    for left in 0 4 12 40 80 120 160 200 1900; do
        leave "$left"
        run "$@" --params "$PARAMS"
        rm -f "$disk/filler"
        good "nothing hidden is left ($name, $left kB)" nothing_hidden
        [ "$rc" -ne 0 ] || break
        refused=$((refused + 1))
        exits 1
        quiet_out
        good "one line ($name, $left kB)" [ "$(wc -l <"$work/err")" -eq 1 ]
        complains "No space left on device"
        sum >"$work/new"
        good "all is as it was ($name, $left kB)" cmp -s "$work/old" "$work/new"
    done
    exits 0
    [ "$refused" -gt 0 ] || tell "$name was never refused"
    sum >"$work/new"
    bad "something is written in the end ($name)" cmp -s "$work/old" "$work/new"
}

for command in forecast week compare; do
    run $command --today 2026-05-20 --members 1 --out "$disk/$command" --params "$PARAMS"
    exits 0
    on_full $command $command --today 2026-05-21 --members 1 --out "$disk/$command"
    rm -rf "${disk:?}/$command"
done
on_full note note "$disk/house" slicers picked_kg 3.5 --date 2026-05-20 --today 2026-05-21
on_full learn learn --today 2026-05-21 --members 20 --out "$work/elsewhere" --save "$disk/kept.csv"
rm "$disk/kept.csv"
run learn --today 2026-05-20 --members 20 --out "$disk/learn" --params "$PARAMS"
exits 0
on_full learn learn --today 2026-05-21 --members 20 --out "$disk/learn"
finish
