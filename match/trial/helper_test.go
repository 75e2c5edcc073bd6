package trial

import (
	"cmp"
	"fmt"
	"strconv"
)

func itoa(n int) string { return strconv.Itoa(n) }

// tenth writes a number of tenths with its point.
func tenth(n int) string { return fmt.Sprintf("%.1f", float64(n)/10) }

func cmpFloat(a, b float64) int { return cmp.Compare(a, b) }
