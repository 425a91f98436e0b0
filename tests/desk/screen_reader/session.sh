# A session of its own: a bus of accessibility, the window, and one who listens.  Arguments: Python of the program,
# Python with gi, folder of these files, folder to write in, words of the last announcement.
at_spi=/usr/libexec/at-spi-bus-launcher
"$at_spi" --launch-immediately 2>/dev/null &
bus=$!
mkfifo "$4/orders"
"$1" "$3/spoken.py" "$4/settings.ini" < "$4/orders" 2>"$4/spoken.err" &
program=$!
exec 3>"$4/orders"
"$2" "$3/heard.py" "$5" 2>"$4/heard.err" | while IFS= read -r line; do
    printf '%s\n' "$line"
    [ -n "$began" ] || printf '%s\n' "$ORDERS" >&3
    began=1
done
exec 3>&-
kill "$program" "$bus" 2>/dev/null
wait "$program" "$bus" 2>/dev/null
