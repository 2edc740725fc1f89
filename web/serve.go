package web

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Serve builds the page, unless it lies built in the user's cache, serves it at
// addr until ctx ends, and opens the browser if asked to. It prints the address
// to out.
func Serve(ctx context.Context, addr string, open bool, out io.Writer) error {
	listener, err := net.Listen("tcp", addr)
	if err != nil {
		return fmt.Errorf("cannot serve the page at %s: %w", addr, err)
	}
	defer listener.Close()
	dir, err := cached(ctx, func(step string) { fmt.Fprintf(out, "riddle: %s\n", step) })
	if err != nil {
		return err
	}
	url, others := addresses(listener.Addr(), net.InterfaceAddrs)
	fmt.Fprintf(out, "riddle: the machine is at %s (stop with Ctrl+C)\n", url)
	if others != nil {
		fmt.Fprintf(out, "riddle: it is open to the network: anyone who can reach this computer can use it%s\n", listed(others))
	}
	if open {
		if err := openBrowser(url); err != nil {
			fmt.Fprintf(out, "riddle: could not open a browser (%v); open the address yourself\n", err)
		}
	}
	return serve(ctx, listener, Handler(os.DirFS(dir)))
}

// addresses returns where a browser on this computer finds the page, and where
// others do; nil if it is served to this computer alone.
func addresses(at net.Addr, own func() ([]net.Addr, error)) (here string, others []string) {
	url := func(ip net.IP, port int) string {
		return "http://" + net.JoinHostPort(ip.String(), strconv.Itoa(port)) + "/"
	}
	tcp, ok := at.(*net.TCPAddr)
	switch {
	case !ok:
		return "http://" + at.String() + "/", nil
	case tcp.IP.IsLoopback():
		return url(tcp.IP, tcp.Port), nil
	case !tcp.IP.IsUnspecified():
		here = url(tcp.IP, tcp.Port)
		return here, []string{here}
	}
	others = []string{}
	list, err := own()
	if err != nil {
		list = nil // then others have to know it
	}
	for _, a := range list {
		if n, ok := a.(*net.IPNet); ok && n.IP.IsGlobalUnicast() {
			others = append(others, url(n.IP, tcp.Port))
		}
	}
	return url(net.IPv4(127, 0, 0, 1), tcp.Port), others
}

// listed ends a sentence with what there is to list.
func listed(addresses []string) string {
	if len(addresses) == 0 {
		return ""
	}
	return ", at " + strings.Join(addresses, " or ")
}

func serve(ctx context.Context, listener net.Listener, handler http.Handler) error {
	server := &http.Server{Handler: handler, ReadHeaderTimeout: 10 * time.Second}
	stop := context.AfterFunc(ctx, func() {
		wait, cancel := context.WithTimeout(context.Background(), 2*time.Second)
		defer cancel()
		server.Shutdown(wait)
	})
	defer stop()
	if err := server.Serve(listener); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}

// cached returns a directory in the user's cache that holds the page as the
// sources now stand, and builds it there first if need be.
func cached(ctx context.Context, progress func(string)) (string, error) {
	root, err := findSource()
	if err != nil {
		return "", err
	}
	hash, err := sourceHash(root)
	if err != nil {
		return "", err
	}
	base, err := os.UserCacheDir()
	if err != nil {
		return "", fmt.Errorf("no place to build the page in: %w", err)
	}
	dir := filepath.Join(base, "riddle", hash)
	err = inCache(ctx, dir, progress, func(fresh string) error {
		if err := Build(ctx, fresh, progress); err != nil {
			return err
		}
		return compress(ctx, fresh, false, encodings...)
	})
	if ctx.Err() != nil && err != nil {
		err = errors.New("stopped before the page was built")
	}
	return dir, err
}

// inCache sees to it that a page lies sound in the cache: one that is missing is
// built, and one that is damaged is built over.
func inCache(ctx context.Context, dir string, progress func(string), build func(fresh string) error) error {
	if sound(dir) {
		now := time.Now()
		os.Chtimes(dir, now, now) // one in use is not the oldest
		sweepCache(filepath.Dir(dir))
		return nil
	}
	if _, err := os.Stat(dir); err == nil {
		progress("the page in the cache is damaged; building it again")
		if _, err := owned(dir); err != nil { // not even its list is left
			if err := os.RemoveAll(dir); err != nil {
				return err
			}
		}
	} else {
		progress("building the page once; the first time this takes about a minute")
	}
	_, err := lay(ctx, dir, build)
	if err == nil {
		sweepCache(filepath.Dir(dir))
		prune(filepath.Dir(dir))
	}
	return err
}

// keptPages is how many built pages stay in the cache.
const keptPages = 3

// prune removes all but the latest built pages. What cannot be removed stays.
func prune(base string) {
	entries, err := os.ReadDir(base)
	if err != nil {
		return
	}
	age := func(e os.DirEntry) time.Duration {
		info, err := e.Info()
		if err != nil {
			return 0
		}
		return time.Since(info.ModTime())
	}
	entries = slices.DeleteFunc(entries, func(e os.DirEntry) bool {
		_, err := readVersion(os.DirFS(filepath.Join(base, e.Name())))
		return err != nil // no page of ours
	})
	slices.SortFunc(entries, func(a, b os.DirEntry) int { return cmp.Compare(age(a), age(b)) })
	for _, e := range entries[min(keptPages, len(entries)):] {
		os.RemoveAll(filepath.Join(base, e.Name()))
	}
}

// openBrowser asks the system to show an address.
func openBrowser(url string) error {
	switch runtime.GOOS {
	case "darwin":
		return exec.Command("open", url).Start()
	case "windows":
		return exec.Command("rundll32", "url.dll,FileProtocolHandler", url).Start()
	default:
		return exec.Command("xdg-open", url).Start()
	}
}
