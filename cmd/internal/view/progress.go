package view

import (
	"fmt"
	"io"
	"math"
	"time"

	"github.com/vbauerster/mpb/v8"
	"github.com/vbauerster/mpb/v8/decor"

	"lowsone/catalog"
)

// patience is how long a person waits without a sign.
const patience = time.Second

// Progress shows how far a long job is, how many rows it does in a second and
// how long it will still take, on a terminal and only once it has taken a
// second. report takes rows and may be called from one goroutine; stop clears
// the line and must be called before anything else is printed.
func Progress(terminal io.Writer, what string) (report func(done, all int), stop func()) {
	return progressAfter(patience, terminal, what)
}

func progressAfter(patience time.Duration, terminal io.Writer, what string, more ...mpb.ContainerOption) (report func(done, all int), stop func()) {
	begin := make(chan any)
	timer := time.AfterFunc(patience, func() { close(begin) })
	progress := mpb.New(append(more, mpb.WithOutput(terminal), mpb.WithWidth(40), mpb.WithRenderDelay(begin))...)
	bar := progress.AddBar(0, mpb.BarRemoveOnComplete(),
		mpb.PrependDecorators(decor.Name(what+" ")),
		mpb.AppendDecorators(decor.Percentage(), decor.Any(pace(time.Now()))))
	report = func(done, all int) {
		bar.SetTotal(int64(all), false)
		bar.SetCurrent(int64(min(done, all-1))) // the bar ends with stop, not before
	}
	return report, func() {
		timer.Stop()
		bar.Abort(true)
		progress.Wait()
	}
}

// pace tells the rate since a job began, and the time left at that rate; nothing
// before the first report.
func pace(begin time.Time) func(decor.Statistics) string {
	return func(s decor.Statistics) string {
		return paceText(s.Current, s.Total, time.Since(begin))
	}
}

func paceText(done, all int64, took time.Duration) string {
	rate := float64(done) / took.Seconds()
	if done <= 0 || !(rate > 0) {
		return ""
	}
	left := time.Duration(float64(all-done) / rate * float64(time.Second))
	return fmt.Sprintf("  %s rows/s  %s left", catalog.Number(twoDigits(rate)), left.Round(time.Second))
}

// twoDigits rounds to what can be read while it changes.
func twoDigits(v float64) float64 {
	scale := math.Pow(10, math.Floor(math.Log10(v))-1)
	return math.Round(v/scale) * scale
}
