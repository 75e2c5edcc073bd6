// Command lowsone finds the fan that makes a device quieter and still keeps it
// cool.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
	"time"

	"github.com/adrg/xdg"

	"lowsone/cmd/internal/cli"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second Ctrl-C ends at once
	code := cli.Main(ctx, os.Args[1:], cli.Env{
		Stdin: os.Stdin, Stdout: os.Stdout, Stderr: os.Stderr,
		Getenv: os.Getenv, Now: time.Now, DataHome: xdg.DataHome,
	})
	stop()
	os.Exit(code)
}
