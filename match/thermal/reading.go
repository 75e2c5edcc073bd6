package thermal

import (
	"fmt"
	"math"
	"slices"
)

// Reading is one line of a temperature log of one probe.
type Reading struct {
	Time    float64 // s from any start
	Celsius float64 // °C
}

// fewest is the least number of readings a log is judged by: three are used up
// by the curve itself.
const fewest = 5

// FewReadingsError reports a log with too few readings to judge.
type FewReadingsError struct{ Got, Least int }

func (e *FewReadingsError) Error() string {
	return fmt.Sprintf("temperature log of %d readings: at least %d needed", e.Got, e.Least)
}

// OrderError reports a reading that is earlier than the one before it.
type OrderError struct {
	Index        int // of the reading, from 0
	Before, Time float64
}

func (e *OrderError) Error() string {
	return fmt.Sprintf("temperature log: reading %d is of %.6g s, the one before of %.6g s: sort the log by time", e.Index+1, e.Time, e.Before)
}

// ReadingError reports a reading that cannot be one.
type ReadingError struct {
	Index   int // from 0
	Reading Reading
}

func (e *ReadingError) Error() string {
	return fmt.Sprintf("temperature log: reading %d is %.6g °C at %.6g s: times must be finite, temperatures between %g and %g °C",
		e.Index+1, e.Reading.Celsius, e.Reading.Time, coldest, hottest)
}

// checkLog refuses what is no log: unreadable or unsorted readings.
func checkLog(log []Reading) error {
	for i, r := range log {
		if !(math.Abs(r.Time) <= longest) || !(r.Celsius >= coldest && r.Celsius <= hottest) {
			return &ReadingError{i, r}
		}
		if i > 0 && r.Time < log[i-1].Time {
			return &OrderError{i, log[i-1].Time, r.Time}
		}
	}
	return nil
}

// longest bounds times in s, about three centuries: a Unix time in s passes, one
// in ms does not.
const longest = 1e10

// span returns the length of a log in s.
func span(log []Reading) float64 { return log[len(log)-1].Time - log[0].Time }

// interval returns the time between readings in s, by the median.
func interval(log []Reading) float64 {
	var between []float64
	for i := 1; i < len(log); i++ {
		between = append(between, log[i].Time-log[i-1].Time)
	}
	return median(between)
}

// later returns the readings after a share of the log's length.
func later(log []Reading, share float64) []Reading {
	from := log[0].Time + share*span(log)
	i := slices.IndexFunc(log, func(r Reading) bool { return r.Time >= from })
	return log[i:]
}
