//go:build js

// Command riddleweb is the machine on the page: the engine's loop in a frame
// and the bridge to the page around it.
package main

import "riddle/web/bridge"

func main() {
	if err := bridge.Run(); err != nil {
		panic(err)
	}
}
