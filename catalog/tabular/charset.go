package tabular

import (
	"bytes"
	"fmt"
	"strings"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/htmlindex"
	"golang.org/x/text/encoding/ianaindex"
	"golang.org/x/text/encoding/unicode"
)

// charset is a character set and what of the file it does not apply to.
type charset struct {
	name string
	enc  encoding.Encoding // nil: UTF-8 that needs no decoding
	skip int64             // bytes of byte order mark
}

var (
	utf16le = unicode.UTF16(unicode.LittleEndian, unicode.IgnoreBOM)
	utf16be = unicode.UTF16(unicode.BigEndian, unicode.IgnoreBOM)
)

// boms are the byte order marks, Unicode Standard section 23.8. UTF-32 has none
// here: it is refused as not text.
var boms = []struct {
	mark string
	set  charset
}{
	{"\xef\xbb\xbf", charset{name: "utf-8", skip: 3}},
	{"\xff\xfe", charset{name: "utf-16le", enc: utf16le, skip: 2}},
	{"\xfe\xff", charset{name: "utf-16be", enc: utf16be, skip: 2}},
}

// charsetByBOM reads the byte order mark, if there is one.
func charsetByBOM(head []byte) (charset, bool) {
	for _, b := range boms {
		if bytes.HasPrefix(head, []byte(b.mark)) {
			return b.set, true
		}
	}
	return charset{}, false
}

// charsetByZeros recognises UTF-16 without a byte order mark. Delimiters, line
// ends and digits are below U+0100 in any language, so every second byte is often
// zero, and hardly ever one of those between.
func charsetByZeros(head []byte) (charset, bool) {
	var zeros [2]int
	for i, b := range head {
		if b == 0 {
			zeros[i%2]++
		}
	}
	pairs := len(head) / 2
	const often, seldom = 4, 64 // one pair in 4, one in 64
	switch {
	case zeros[1] > 1 && zeros[1]*often > pairs && zeros[0]*seldom <= pairs:
		return charset{name: "utf-16le", enc: utf16le}, true
	case zeros[0] > 1 && zeros[0]*often > pairs && zeros[1]*seldom <= pairs:
		return charset{name: "utf-16be", enc: utf16be}, true
	}
	return charset{}, false
}

// charsetByName looks a forced name up.
func charsetByName(name string, head []byte) (charset, error) {
	set, err := lookUp(name)
	if err != nil {
		return charset{}, err
	}
	byBOM, ok := charsetByBOM(head)
	switch {
	case ok && strings.EqualFold(strings.TrimSpace(name), "utf-16") && byBOM.name != "utf-8":
		return byBOM, nil // the name leaves the byte order to the mark
	case ok && byBOM.name == set.name:
		set.skip = byBOM.skip
	}
	return set, nil
}

func lookUp(name string) (charset, error) {
	enc, err := htmlindex.Get(name)
	if err != nil {
		enc, err = ianaindex.IANA.Encoding(name)
	}
	if err != nil || enc == nil || enc == encoding.Replacement {
		return charset{}, fmt.Errorf("no character set is named %q", name)
	}
	canonical, err := htmlindex.Name(enc)
	if err != nil {
		canonical = strings.ToLower(strings.TrimSpace(name))
	}
	switch canonical {
	case "utf-16le":
		enc = utf16le
	case "utf-16be":
		enc = utf16be
	}
	return charset{name: canonical, enc: enc}, nil
}

// windows1252 is what a file that is not Unicode is taken for: the WHATWG
// Encoding Standard's default for western languages, and a superset of what
// ISO 8859-1 prints.
var windows1252 = charset{name: "windows-1252", enc: charmap.Windows1252}
