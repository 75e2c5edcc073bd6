package store

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"strconv"
	"testing"
	"time"

	"lowsone/catalog"
)

// killedDir names the folder into which this process, started by TestKilled,
// imports until it is killed.
const killedDir = "LOWSONE_TEST_KILLED_DIR"

// kills is how often TestKilled kills; LOWSONE_TEST_KILLS gives another number.
const kills = 5

func TestImportUntilKilled(t *testing.T) {
	dir := os.Getenv(killedDir)
	if dir == "" {
		t.Skip("only as a process of TestKilled")
	}
	for n := 1; ; n++ {
		fill(t, dir, "a.csv", batch(n)...)
	}
}

// batch gives 40 fans that belong together, as readWhole checks.
func batch(n int) []*catalog.Fan {
	fans := inventedFans(40)
	for i, f := range fans {
		f.Part = fmt.Sprintf("G%d-%d", n, i)
		f.Description = fmt.Sprintf("batch%d", n)
	}
	return fans
}

// A killed import leaves the catalogue as it was or as it should become, whole,
// and the next import works and sweeps.
func TestKilled(t *testing.T) {
	n := kills
	if text := os.Getenv("LOWSONE_TEST_KILLS"); text != "" {
		var err error
		if n, err = strconv.Atoi(text); err != nil {
			t.Fatal(err)
		}
	}
	dir := t.TempDir()
	fill(t, dir, "a.csv", batch(0)...)
	r := rand.New(rand.NewPCG(1, uint64(n)))
	for range n {
		cmd := exec.Command(os.Args[0], "-test.run=^TestImportUntilKilled$")
		cmd.Env = append(os.Environ(), killedDir+"="+dir)
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration(20+r.IntN(150)) * time.Millisecond)
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		_ = cmd.Wait() // it was killed
		readWhole(t, dir)
		begin(t, dir, "a.csv").Abort()
		if names := left(t, dir); len(names) > 4 { // CURRENT, LOCK, the live generation, the one before
			t.Errorf("a killed import leaves %v", names)
		}
		readWhole(t, dir)
	}
	fill(t, dir, "a.csv", batch(0)...)
	readWhole(t, dir)
}
