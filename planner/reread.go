package planner

// wholeReading is the length of text up to which a changed project is simply read anew. Beyond it, up to as many bytes as
// a project may have marks, only the room that was changed is read again.
const wholeReading = 8 << 10

// readChanged reads a text that comes of one that has been read by a change. Where the change lies within one room of
// many, only this room is read again and the other rooms stay; in every other case, and wherever anything about the room
// is at fault, the whole text is read. Both ways give the same reading. On success the reading before must not be used
// any more: its tree lives on in the new one.
func readChanged(name string, old *reading, before, after []byte) (*reading, error) {
	if len(after) > wholeReading && len(after) < mostMarks {
		if read := old.withRoomChanged(name, before, after); read != nil {
			return read, nil
		}
	}
	return readSource(name, after)
}

// withRoomChanged is the reading of the text after a change within one room; nil where it was no such change.
func (r *reading) withRoomChanged(name string, before, after []byte) *reading {
	rooms := r.root.get("rooms")
	if rooms == nil || rooms.kind != list || rooms.flow || r.root.flow {
		return nil
	}
	change := difference(before, after)
	if change.empty() {
		return r
	}
	i, from, to := roomAround(r.root, rooms, before, change)
	if i < 0 {
		return nil
	}
	longer := len(after) - len(before)
	room := growRoom(after[from:to+longer], to == len(before), rooms, i)
	if room == nil {
		return nil
	}
	lines := len(lineStarts(after[from:to+longer])) - len(lineStarts(before[from:to]))
	shift(room, 0, from-len(roomsHead), rooms.items[i].line-2)

	// a copy of the two nodes above the room, so that nothing has happened if the room is refused
	root, list := *r.root, *rooms
	list.items = append([]*node(nil), rooms.items...)
	list.items[i] = room
	root.pairs = append([]pair(nil), r.root.pairs...)
	for k := range root.pairs {
		if root.pairs[k].value == rooms {
			root.pairs[k].value = &list
		}
	}
	read, err := readTree(name, &root, r.rooms)
	if err != nil {
		return nil
	}
	for k, item := range list.items {
		if k != i {
			shift(item, to, longer, lines)
		}
	}
	for _, p := range root.pairs {
		if p.value != &list {
			shift(p.key, to, longer, lines)
			shift(p.value, to, longer, lines)
		}
	}
	if i == len(list.items)-1 {
		list.end = room.end
	} else {
		list.end += longer
	}
	root.end = root.pairs[len(root.pairs)-1].end()
	return read
}

// roomAround finds the room that a change of the text lies in, and the lines that it is written on: from the line of
// its dash to that of the next one, or of the key behind the rooms. -1 where there is no one such room, or its lines
// are not its own.
func roomAround(root, rooms *node, src []byte, change splice) (i, from, to int) {
	for i = len(rooms.items) - 1; i >= 0 && rooms.items[i].start > change.at; i-- {
	}
	if i < 0 || !dashed(src, rooms, i) {
		return -1, 0, 0
	}
	to = len(src)
	if i+1 < len(rooms.items) {
		if !dashed(src, rooms, i+1) {
			return -1, 0, 0
		}
		to = lineStart(src, rooms.items[i+1].start)
	} else {
		for _, p := range root.pairs {
			if p.key.start > rooms.start {
				to = min(to, lineStart(src, p.key.start))
			}
		}
	}
	if change.at+len(change.old) > to {
		return -1, 0, 0
	}
	return i, lineStart(src, rooms.items[i].start), to
}

// dashed says whether a room begins right behind its dash, with nothing but blanks before it on its line.
func dashed(src []byte, rooms *node, i int) bool {
	item := rooms.items[i]
	if item.kind != mapping || item.flow || item.col <= rooms.col {
		return false
	}
	for k, c := range src[lineStart(src, item.start):item.start] {
		if dash := k == rooms.col-1; dash && c != '-' || !dash && c != ' ' {
			return false
		}
	}
	return true
}

// roomsHead stands before the lines of a room that are read by themselves.
const roomsHead = "rooms:\n"

// growRoom grows the tree of a room from its lines alone, nil where they are not one sound room in the place of room i.
func growRoom(lines []byte, last bool, rooms *node, i int) *node {
	if n := len(lines); n == 0 || lines[n-1] != '\n' && !last || !indented(lines, rooms.col == 1) {
		return nil
	}
	root, errs := growTree("", append([]byte(roomsHead), lines...))
	if errs != nil || root.kind != mapping || root.flow || len(root.pairs) != 1 {
		return nil
	}
	list := root.pairs[0].value
	if root.pairs[0].key.text != "rooms" || list.kind != rooms.kind || list.flow || len(list.items) != 1 || list.col != rooms.col || list.indent != rooms.indent {
		return nil
	}
	room := list.items[0]
	if room.kind != mapping || room.flow || room.col != rooms.items[i].col || room.line != 2 {
		return nil
	}
	return room
}

// indented says whether no line begins at the margin but comments, and the dash of the room where it stands there; what
// else begins there, like the end of a document, means more than the room.
func indented(lines []byte, dash bool) bool {
	for at := 0; at < len(lines); at = afterBreak(lines, lineEnd(lines, at)) {
		switch c := lines[at]; {
		case c == ' ' || c == '#' || c == '\n' || c == '\r':
		case at > 0 || !dash || c != '-' || at+1 == len(lines) || lines[at+1] != ' ':
			return false
		}
	}
	return true
}

// shift moves the places of a node and all below it that stand at or behind a place.
func shift(n *node, from, by, lines int) {
	if n.start >= from {
		n.start += by
		n.line += lines
		n.end += by
	}
	for _, c := range n.items {
		shift(c, from, by, lines)
	}
	for _, p := range n.pairs {
		shift(p.key, from, by, lines)
		shift(p.value, from, by, lines)
	}
}
