// Command lowsone finds the fan that makes a device quieter and still keeps it
// cool.
package main

import (
	"context"
	"os"
	"os/signal"
	"runtime"
	"syscall"
	"time"

	"github.com/adrg/xdg"

	"lowsone/cmd/internal/cli"
)

// slackBytes is memory that is asked for and never touched, which costs none. The
// garbage collector runs when the heap has doubled; most commands keep little, so
// that it would run a hundred times a second. This makes the little more: a tenth
// of the time of an import, and of a ranking.
const slackBytes = 32 << 20

func main() {
	slack := make([]byte, slackBytes)
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second Ctrl-C ends at once
	code := cli.Main(ctx, os.Args[1:], cli.Env{
		Stdin: os.Stdin, Stdout: os.Stdout, Stderr: os.Stderr,
		Getenv: os.Getenv, Now: time.Now, DataHome: xdg.DataHome,
	})
	stop()
	runtime.KeepAlive(slack)
	os.Exit(code)
}
