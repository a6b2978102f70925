package cli_test

import (
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/gofrs/flock"
	"github.com/rogpeppe/go-internal/testscript"

	"example.com/oddments/cmd/internal/cli"
	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/photo/phototest"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"oddments": func() {
			env := command.System()
			env.Version = "v0.0.0-test"
			env.Bench = func(context.Context, command.BenchOptions) error { return errors.New("a script has no terminal") }
			os.Exit(cli.Run(context.Background(), os.Args[1:], env))
		},
	})
}

// The scripts run the program in a process of its own, with a home in $WORK/home.
// "exits N COMMAND..." holds a command to an exact exit.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(env *testscript.Env) error {
			for name, value := range map[string]string{
				"ODDMENTS_HOME": filepath.Join(env.WorkDir, "home"),
				"ESC":           "\x1b",
				"TERM":          "xterm-256color", "COLORTERM": "", "NO_COLOR": "", "LANG": "en_GB.UTF-8", "LC_ALL": "", "LC_CTYPE": "",
			} {
				env.Setenv(name, value)
			}
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"exits": exits, "hold": hold, "photo": takePhoto},
	})
}

// takePhoto writes the photo of a room with two papers and two pieces, held on its side.
func takePhoto(ts *testscript.TestScript, _ bool, args []string) {
	scene, _, _ := phototest.Room(colour.Lab{L: 38, A: 10, B: 15}, colour.Lab{L: 64, A: 12, B: 28})
	scene.Noise = 2
	exif := phototest.EXIF(binary.BigEndian, 6, "2026:11:14 10:00:00")
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), phototest.WithEXIF(phototest.JPEG(phototest.Held(scene.Image(), 6)), exif), 0o600))
}

func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits N COMMAND ARG...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	var exit *exec.ExitError
	if err := ts.Exec(args[1], args[2:]...); errors.As(err, &exit) {
		got = exit.ExitCode()
	} else if err != nil {
		ts.Fatalf("%v", err)
	}
	if got != want {
		ts.Fatalf("exit %d, want %d", got, want)
	}
}

// hold makes this test the writer of a home until the script ends.
func hold(ts *testscript.TestScript, _ bool, args []string) {
	lock := flock.New(filepath.Join(ts.MkAbs(args[0]), ".lock"))
	if ok, err := lock.TryLock(); err != nil || !ok {
		ts.Fatalf("lock of %s: %v, %v", args[0], ok, err)
	}
	ts.Defer(func() {
		if err := lock.Close(); err != nil {
			panic(fmt.Sprint("lock: ", err))
		}
	})
}
