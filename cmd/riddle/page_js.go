package main

// pageCommands are none where the command runs as WebAssembly: there is no
// toolchain to build a page with.
func pageCommands() []command { return nil }
