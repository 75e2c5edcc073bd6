package recording

import (
	"encoding/binary"
	"fmt"
	"math"

	"lowsone/catalog/quantity"
)

// Format is how the samples of a recording are written.
type Format struct {
	Rate     quantity.Frequency // sampling rate
	Channels int                // 1 or 2
	Bits     int                // of one sample in the file
	Float    bool               // floating point, else integers
	valid    int                // bits of an integer sample that are used
}

// Sampling rates that are read, in Hz. Below, the bands that make a fan loud are
// missing; above, no sound recorder works.
const (
	minRate = 16000
	maxRate = 384000
)

// String gives the format in words.
func (f Format) String() string {
	channels, kind := "mono", "PCM"
	if f.Channels == 2 {
		channels = "stereo"
	}
	if f.Float {
		kind = "float"
	}
	return fmt.Sprintf("%g Hz, %s, %d-bit %s", float64(f.Rate), channels, f.Bits, kind)
}

// frame is how many bytes the samples of one instant take.
func (f Format) frame() int { return f.Channels * f.Bits / 8 }

// Sizes of a format chunk: plain, with the extension, and with what the size of
// an extension, of 16 bits, can add.
const (
	formatPlain   = 16
	formatLongest = 40
	formatMost    = 18 + 1<<16
)

// step is that of the numbers, as a share of full scale; 0 where they float.
func (f Format) step() float64 {
	if f.Float {
		return 0
	}
	return math.Exp2(-float64(f.valid - 1))
}

// Tags of the format chunk.
const (
	tagPCM        = 1
	tagFloat      = 3
	tagExtensible = 0xfffe
)

// extensibleTail is what follows the tag in the identifiers of the extensible
// format that stand for a tag.
const extensibleTail = "\x00\x00\x00\x00\x10\x00\x80\x00\x00\xaa\x00\x38\x9b\x71"

// codecs names the compressed formats that are met most.
var codecs = map[uint16]string{
	2: "ADPCM", 6: "A-law", 7: "µ-law", 0x11: "IMA ADPCM", 0x31: "GSM 6.10",
	0x50: "MPEG audio", 0x55: "MPEG layer 3", 0xff: "AAC", 0x161: "Windows Media audio", 0x1610: "AAC",
}

// parseFormat reads a format chunk of at most formatLongest bytes.
func parseFormat(chunk []byte) (*Format, *Error) {
	if len(chunk) < formatPlain {
		return nil, headerError(ErrHeader, "the format chunk has %d bytes, %d are the least", len(chunk), formatPlain)
	}
	le := binary.LittleEndian
	tag, channels, rate := le.Uint16(chunk), int(le.Uint16(chunk[2:])), le.Uint32(chunk[4:])
	align, bits := int(le.Uint16(chunk[12:])), int(le.Uint16(chunk[14:]))
	valid := bits
	if tag == tagExtensible {
		var err *Error
		if tag, valid, err = extension(chunk, bits); err != nil {
			return nil, err
		}
	}
	f := &Format{Rate: quantity.Frequency(rate), Channels: channels, Bits: bits, Float: tag == tagFloat, valid: valid}
	if err := f.check(tag); err != nil {
		return nil, err
	}
	if align != f.frame() {
		return nil, headerError(ErrHeader, "the header contradicts itself: %d bytes a frame where %d channels of %d bits take %d", align, channels, bits, f.frame())
	}
	return f, nil
}

// extension reads the tag and the used bits of the extensible format.
func extension(chunk []byte, bits int) (tag uint16, valid int, err *Error) {
	if len(chunk) < formatLongest {
		return 0, 0, headerError(ErrHeader, "the extensible format chunk has %d bytes, %d are the least", len(chunk), formatLongest)
	}
	le := binary.LittleEndian
	valid, tag = int(le.Uint16(chunk[18:])), le.Uint16(chunk[24:])
	if string(chunk[26:formatLongest]) != extensibleTail {
		return 0, 0, headerError(ErrCodec, "the samples are in a form of one maker (%x), which is not read", chunk[24:formatLongest])
	}
	if valid == 0 {
		valid = bits
	}
	if valid > bits || valid < minBits && bits >= minBits {
		return 0, 0, headerError(ErrHeader, "the header contradicts itself: %d of %d bits a sample are used", valid, bits)
	}
	return tag, valid, nil
}

// minBits is the least number of bits of a sample. With 8 the steps of the
// numbers are louder than most fans.
const minBits = 16

// check refuses what is not read.
func (f *Format) check(tag uint16) *Error {
	name, compressed := codecs[tag]
	integer := tag == tagPCM && (f.Bits == 16 || f.Bits == 24 || f.Bits == 32)
	float := tag == tagFloat && (f.Bits == 32 || f.Bits == 64)
	switch {
	case compressed:
		return headerError(ErrCodec, "the sound is compressed (%s), which is not read", name)
	case tag != tagPCM && tag != tagFloat:
		return headerError(ErrCodec, "the samples are in format %#04x, which is not read", tag)
	case !integer && !float:
		return headerError(ErrSample, "%d bits a sample are not read", f.Bits)
	case f.Channels == 0:
		return headerError(ErrChannels, "the header states no channel")
	case f.Channels > 2:
		return headerError(ErrChannels, "%d channels are not read, only one or two", f.Channels)
	case f.Rate < minRate:
		return headerError(ErrRate, "the sampling rate of %g Hz is below %d Hz: too much of what the ear hears is missing", float64(f.Rate), minRate)
	case f.Rate > maxRate:
		return headerError(ErrRate, "the sampling rate of %g Hz is above %d Hz: the header is damaged, or this is no sound", float64(f.Rate), maxRate)
	}
	return nil
}

// headerError is an error of a file whose name is put in later.
func headerError(kind error, format string, args ...any) *Error {
	hint := headerHint
	if kind == ErrRate {
		hint = "record with 44100 or 48000 Hz"
	}
	return &Error{Reason: fmt.Sprintf(format, args...), Hint: hint, Err: kind}
}
