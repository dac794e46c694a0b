package journal

import (
	"encoding/binary"
	"encoding/json"
	"errors"
	"hash/crc32"
	"time"
)

// The form of a journal: the magic line, then records of a kind, the length of the payload (4 bytes, least first), the
// payload, and the CRC-32C of all three (Castagnoli's polynomial, as iSCSI uses it, RFC 3720 section 12.1).
const (
	magic      = "seamwright journal 1\n"
	ending     = ".journal"
	lockEnding = ".lock"

	headKind     = 'h' // JSON: path, hash, edits that are not recorded singly, length of the text; then the text
	editKind     = 'e' // varints: place, bytes replaced, Unix milliseconds; then what was inserted
	openedKind   = 'o' // the copy was opened by a later start
	answeredKind = 'a' // the calculation has answered for the text so far

	frame       = 1 + 4 + 4
	mostPayload = 64 << 20 // more is not a record
)

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

// head is the first record.
type head struct {
	Path  string `json:"path,omitempty"`
	Sum   string `json:"sum,omitempty"`
	Edits int    `json:"edits,omitempty"`
}

func record(kind byte, payload []byte) []byte {
	rec := make([]byte, 0, len(payload)+frame)
	rec = append(rec, kind)
	rec = binary.LittleEndian.AppendUint32(rec, uint32(len(payload)))
	rec = append(rec, payload...)
	return binary.LittleEndian.AppendUint32(rec, crc32.Checksum(rec, castagnoli))
}

// headRecord holds the origin, and how many edits were made besides those that follow one by one.
func headRecord(from Origin, edits int) []byte {
	data, err := json.Marshal(head{from.Path, from.Sum, max(0, edits)})
	if err != nil {
		panic("journal: " + err.Error()) // strings and a number always can be written
	}
	payload := binary.AppendUvarint(nil, uint64(len(data)))
	payload = append(payload, data...)
	return record(headKind, append(payload, from.Text...))
}

func editRecord(at, removed int, inserted []byte, when time.Time) []byte {
	payload := binary.AppendUvarint(nil, uint64(at))
	payload = binary.AppendUvarint(payload, uint64(removed))
	payload = binary.AppendVarint(payload, when.UnixMilli())
	return record(editKind, append(payload, inserted...))
}

// Difference is the smallest single edit that turns one text into another: at a place, so many bytes are replaced by others,
// which are part of the second text.
func Difference(before, after []byte) (at, removed int, inserted []byte) {
	n := min(len(before), len(after))
	for at < n && before[at] == after[at] {
		at++
	}
	tail := 0
	for tail < n-at && before[len(before)-1-tail] == after[len(after)-1-tail] {
		tail++
	}
	return at, len(before) - tail - at, after[at : len(after)-tail]
}

// next takes the first record off data. ok is false at the end, and at a torn or damaged record.
func next(data []byte) (kind byte, payload, rest []byte, ok bool) {
	if len(data) < frame {
		return 0, nil, nil, false
	}
	size := binary.LittleEndian.Uint32(data[1:])
	if size > mostPayload || len(data) < int(size)+frame {
		return 0, nil, nil, false
	}
	n := int(size)
	if crc32.Checksum(data[:5+n], castagnoli) != binary.LittleEndian.Uint32(data[5+n:]) {
		return 0, nil, nil, false
	}
	return data[0], data[5 : 5+n], data[n+frame:], true
}

var errGarbage = errors.New("is not a recovery copy")

// state is a journal read back.
type state struct {
	origin Origin
	text   []byte
	good   []byte // the last text that the calculation has answered for, nil for none
	edits  int
	last   time.Time
	opened int // how often a later start has opened it since it was answered last
}

// read plays a journal up to the first record that is torn or damaged.
func read(data []byte) (*state, error) {
	if len(data) < len(magic) || string(data[:len(magic)]) != magic {
		return nil, errGarbage
	}
	kind, payload, rest, ok := next(data[len(magic):])
	if !ok || kind != headKind {
		return nil, errGarbage
	}
	n, k := binary.Uvarint(payload)
	var h head
	if k <= 0 || n > uint64(len(payload)-k) || json.Unmarshal(payload[k:k+int(n)], &h) != nil {
		return nil, errGarbage
	}
	text := payload[k+int(n):]
	s := &state{origin: Origin{h.Path, h.Sum, text}, text: text, edits: h.Edits}
	for {
		kind, payload, after, ok := next(rest)
		if !ok || !s.play(kind, payload) {
			return s, nil
		}
		rest = after
	}
}

// play follows one record; false stops at one that cannot be.
func (s *state) play(kind byte, payload []byte) bool {
	switch kind {
	case editKind:
		return s.edit(payload)
	case openedKind:
		s.opened++
	case answeredKind:
		s.opened, s.good = 0, s.text
	default:
		return false
	}
	return true
}

func (s *state) edit(payload []byte) bool {
	at, a := binary.Uvarint(payload)
	if a <= 0 {
		return false
	}
	removed, b := binary.Uvarint(payload[a:])
	if b <= 0 {
		return false
	}
	when, c := binary.Varint(payload[a+b:])
	if size := uint64(len(s.text)); c <= 0 || at > size || removed > size-at {
		return false
	}
	text := make([]byte, 0, len(s.text)-int(removed)+len(payload))
	text = append(text, s.text[:at]...)
	text = append(text, payload[a+b+c:]...)
	s.text = append(text, s.text[at+removed:]...)
	s.last = time.UnixMilli(when)
	s.edits++
	return true
}
