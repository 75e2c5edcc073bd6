package recording

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"

	"github.com/go-audio/riff"
)

// notStated stands in a size for "to the end of the file": writers that cannot
// go back to their header leave it.
const notStated = 0xffffffff

// maxSound is the most bytes of samples that are read: what a WAV can hold. Only
// a stream that does not state its length could have more.
const maxSound = 1 << 32

// maxHeader is the most bytes that may stand before the samples.
const maxHeader = 1 << 26

// headerHint is the mend for all that is not plain WAV.
const headerHint = "export it as WAV, 16-bit or 24-bit PCM, mono or stereo"

// counter counts the bytes that were read, and keeps the last error.
type counter struct {
	r   io.Reader
	n   int64
	err error
}

func (c *counter) Read(p []byte) (int, error) {
	n, err := c.r.Read(p)
	c.n += int64(n)
	c.err = err
	return n, err
}

// walker goes through the chunks of a WAV file.
type walker struct {
	name   string
	src    *counter
	parser *riff.Parser
	whole  uint32 // size of the file less 8, by its header
	format *Format
	passed [4]byte // ID and size of the last chunk that was passed over
	size   int64
}

// chunkHeader reads the ID and the size of the next chunk. The parser takes a
// size that cannot be read for zero, so the bytes are counted.
func (w *walker) chunkHeader() (id [4]byte, size uint32, err error) {
	before := w.src.n
	id, size, err = w.parser.IDnSize()
	if got := w.src.n - before; err == nil && got < 8 {
		err = cmp.Or(w.src.err, io.ErrUnexpectedEOF)
	}
	return id, size, err
}

// begin reads the head of the file: RIFF, its size, WAVE.
func (w *walker) begin() error {
	id, size, err := w.chunkHeader()
	if w.src.n == 0 && errors.Is(err, io.EOF) {
		return w.fail(ErrNotWAV, "", "the file is empty")
	}
	var form [4]byte
	if err == nil {
		_, err = io.ReadFull(w.src, form[:])
	}
	if err != nil && !ended(err) {
		return w.unreadable(err)
	}
	if what, kind := foreign(id, size, form); what != "" {
		return w.fail(kind, headerHint, "this is %s", what)
	}
	if id != riff.RiffID || err == nil && form != riff.WavFormatID {
		return w.fail(ErrNotWAV, headerHint, "not a WAV file: it begins with %q", string(id[:]))
	}
	if err != nil {
		return w.fail(ErrHeader, "record or copy it again", "the file ends within its header, after %d bytes", w.src.n)
	}
	w.whole = size
	return nil
}

// toSamples goes to the first byte of the samples and gives how many bytes the
// header claims, or a negative number where it states none.
func (w *walker) toSamples() (claimed int64, err error) {
	if err := w.begin(); err != nil {
		return 0, err
	}
	for {
		id, size, err := w.chunkHeader()
		switch {
		case err != nil && ended(err):
			return 0, w.noSamples()
		case err != nil:
			return 0, w.unreadable(err)
		case id == riff.DataFormatID && w.format == nil:
			return 0, w.fail(ErrNoFormat, headerHint, "the samples come before the chunk that says how they are written")
		case id == riff.DataFormatID:
			return w.claim(size), nil
		case id == riff.FmtID:
			err = w.readFormat(size)
		default:
			w.passed, w.size = id, int64(size)
			err = w.skip(padded(size))
		}
		if err != nil {
			return 0, err
		}
	}
}

// claim reads the size of the samples: negative where the writer left a mark
// that it did not know it, or never came back to a header it had begun.
func (w *walker) claim(size uint32) int64 {
	unfinished := size == 0 && int64(w.whole)+8 <= w.src.n
	if size == notStated || unfinished {
		return -1
	}
	return int64(size)
}

func (w *walker) readFormat(size uint32) error {
	if w.format != nil {
		return w.fail(ErrHeader, headerHint, "two chunks say how the samples are written")
	}
	if size > formatMost {
		return w.fail(ErrHeader, headerHint, "the format chunk claims %d bytes, none has more than %d", size, formatMost)
	}
	var room [formatLongest]byte
	chunk := room[:min(int64(size), formatLongest)]
	if _, err := io.ReadFull(w.src, chunk); err != nil {
		if ended(err) {
			return w.fail(ErrHeader, "record or copy it again", "the file ends within its header, after %d bytes", w.src.n)
		}
		return w.unreadable(err)
	}
	format, err := parseFormat(chunk)
	if err != nil {
		err.File = w.name
		return err
	}
	w.format = format
	return w.skip(padded(size) - int64(len(chunk)))
}

// skip passes over n bytes; a file that ends before is told by what comes next.
func (w *walker) skip(n int64) error {
	if _, err := io.CopyN(io.Discard, w.src, min(n, maxHeader-w.src.n)); err != nil && !ended(err) {
		return w.unreadable(err)
	}
	if w.src.n >= maxHeader {
		return w.fail(ErrHeader, headerHint, "no samples within the first %d MiB", maxHeader>>20)
	}
	return nil
}

// noSamples says that the file ended before any chunk of samples.
func (w *walker) noSamples() error {
	if w.size > 0 && w.src.n < w.size {
		return w.fail(ErrNoData, "record or copy it again",
			"no samples: the chunk %q claims %d bytes, the file ends after %d", w.passed[:], w.size, w.src.n)
	}
	return w.fail(ErrNoData, "record or copy it again", "no samples: the file ends after %d bytes of header", w.src.n)
}

func (w *walker) fail(kind error, hint, format string, args ...any) *Error {
	return &Error{File: w.name, Reason: fmt.Sprintf(format, args...), Hint: hint, Err: kind}
}

func (w *walker) unreadable(err error) error {
	return &Error{File: w.name, Reason: "cannot be read: " + err.Error(), Err: ErrRead, Cause: err}
}

// padded is the room a chunk takes: chunks begin at even bytes.
func padded(size uint32) int64 { return int64(size) + int64(size&1) }

// ended says whether a read failed because there is no more.
func ended(err error) bool {
	return errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF)
}

// foreign names what people give for a WAV, by its first twelve bytes.
func foreign(id [4]byte, size uint32, form [4]byte) (what string, kind error) {
	head := string(id[:])
	switch {
	case head == "RF64" || head == "BW64":
		return head + ", the form of WAV for files above 4 GB, which is not read", ErrContainer
	case head == "RIFX":
		return "RIFX, a WAV with its bytes in the other order, which is not read", ErrContainer
	case head == "riff":
		return "a 64-bit relative of WAV, which is not read", ErrContainer
	case head == "RIFF" && form != riff.WavFormatID && printable(form[:]):
		return fmt.Sprintf("a RIFF file of kind %q, not a WAV", form[:]), ErrNotWAV
	case head == "fLaC", head == "OggS", head == "caff", head == "FORM", head == ".snd":
		return fmt.Sprintf("a sound file of another kind (%q)", head), ErrNotWAV
	case bytes.HasPrefix(id[:], []byte("ID3")), id[0] == 0xff && id[1]&0xe0 == 0xe0 && id[1]&0x06 != 0x06:
		return "compressed sound (MPEG audio), not a WAV", ErrNotWAV
	case size == ftyp:
		return "an MPEG-4 file, not a WAV", ErrNotWAV
	}
	return "", nil
}

// ftyp is what stands where a RIFF file has its size, in MPEG-4 files.
const ftyp = uint32('f') | uint32('t')<<8 | uint32('y')<<16 | uint32('p')<<24

func printable(b []byte) bool {
	return !bytes.ContainsFunc(b, func(r rune) bool { return r < ' ' || r > '~' })
}
