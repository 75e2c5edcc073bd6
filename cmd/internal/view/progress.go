package view

import (
	"io"
	"time"

	"github.com/vbauerster/mpb/v8"
	"github.com/vbauerster/mpb/v8/decor"
)

// patience is how long a person waits without a sign.
const patience = time.Second

// Progress shows how far a long job is, on a terminal and only once it has
// taken a second. report may be called from one goroutine; stop clears the
// line and must be called before anything else is printed.
func Progress(terminal io.Writer, what string) (report func(done, all int), stop func()) {
	begin := make(chan any)
	timer := time.AfterFunc(patience, func() { close(begin) })
	progress := mpb.New(mpb.WithOutput(terminal), mpb.WithWidth(40), mpb.WithRenderDelay(begin))
	bar := progress.AddBar(0, mpb.BarRemoveOnComplete(),
		mpb.PrependDecorators(decor.Name(what+" ")),
		mpb.AppendDecorators(decor.Percentage()))
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
