package tabular

import (
	"fmt"
	"math"
	"time"
)

// Days as workbooks count them, ECMA-376 part 1, 18.17.4.1. Day 60 is the 29th of
// February 1900, which never was.
const (
	leapDay      = 60
	offsetTo1904 = 1462    // days between the two epochs
	endOfDays    = 2958466 // 1 January 10000, counted from 1900
	milliseconds = 24 * 60 * 60 * 1000
)

// dayText writes a number of days as YYYY-MM-DD; with a fraction as YYYY-MM-DD
// HH:MM:SS, to the millisecond where there are any; less than a day as HH:MM:SS.
// It has no answer for what is no day: a negative number, one beyond the year
// 9999, or one about the day that never was.
func dayText(days float64, from1904 bool) (string, bool) {
	if !(days >= 0 && days < endOfDays) {
		return "", false
	}
	whole := math.Floor(days)
	ms := math.Round((days - whole) * milliseconds)
	if whole < 1 {
		return clock(int64(min(ms, milliseconds-1))), true
	}
	if from1904 {
		whole += offsetTo1904
	}
	if ms == milliseconds {
		whole, ms = whole+1, 0
	}
	if whole == leapDay || whole >= endOfDays {
		return "", false
	}
	epoch := 30
	if whole < leapDay {
		epoch = 31
	}
	text := time.Date(1899, time.December, epoch+int(whole), 0, 0, 0, 0, time.UTC).Format(time.DateOnly)
	if ms > 0 {
		text += " " + clock(int64(ms))
	}
	return text, true
}

// elapsedText writes a number of days as H:MM:SS, whose hours do not end at 24.
func elapsedText(days float64) (string, bool) {
	if !(days >= 0 && days < endOfDays) {
		return "", false
	}
	return clock(int64(math.Round(days * milliseconds))), true
}

// clock writes milliseconds as HH:MM:SS, with a fraction only where there is one.
func clock(ms int64) string {
	s := ms / 1000
	text := fmt.Sprintf("%02d:%02d:%02d", s/3600, s/60%60, s%60)
	if ms %= 1000; ms > 0 {
		text += fmt.Sprintf(".%03d", ms)
	}
	return text
}
