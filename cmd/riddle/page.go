//go:build !js

package main

import (
	"io"
	"net"
	"os"
	"strconv"

	"riddle/web"
)

// pageCommands are those that build the page, which takes a Go toolchain.
func pageCommands() []command {
	return []command{{
		name: "serve",
		args: "[--addr HOST:PORT] [--no-open]",
		does: "shows the machine in the browser; this is what riddle does without a command",
		run:  serve,
	}, {
		name: "site",
		args: "--out DIR [--best]",
		does: "writes the page as static files for any web host; --best compresses harder and takes longer",
		run:  site,
	}}
}

func serve(args []string, out io.Writer, _ *notes) error {
	f := options("serve")
	addr := f.String("addr", "127.0.0.1:8321", "")
	closed := f.Bool("no-open", false, "")
	if err := read(f, args); err != nil {
		return err
	}
	_, port, err := net.SplitHostPort(*addr)
	if _, bad := strconv.ParseUint(port, 10, 16); err != nil || bad != nil {
		return wrong("addr", *addr, "HOST:PORT with a port from 0 to 65535")
	}
	ctx, stop := untilStopped()
	defer stop()
	return web.Serve(ctx, *addr, !*closed, out)
}

func site(args []string, out io.Writer, _ *notes) error {
	f := options("site")
	dir, best := f.String("out", "", ""), f.Bool("best", false, "")
	if err := read(f, args); err != nil {
		return err
	}
	if *dir == "" {
		return wrong("out", *dir, "a directory for the page")
	}
	if info, err := os.Stat(*dir); err == nil && !info.IsDir() {
		return wrong("out", *dir, "a directory for the page, not a file")
	}
	ctx, stop := untilStopped()
	defer stop()
	return web.Site(ctx, *dir, *best, out)
}
