//go:build !js

package web_test

import (
	"fmt"
	"time"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// role finds what a user of a screen reader would find: the element of a role
// and a name, as the browser computes both. It returns a selector for it, and
// waits until there is exactly one that is not hidden.
func (p *tab) role(role, name string) string {
	p.t.Helper()
	mark := fmt.Sprintf("%s %s", role, name)
	require.Eventually(p.t, func() bool {
		page, err := chromedp.Call(p.ctx, runtime.Evaluate, runtime.EvaluateParams{Expression: "document"})
		if err != nil || page.Result == nil {
			return false
		}
		found, err := chromedp.Call(p.ctx, accessibility.QueryAXTree, accessibility.QueryAXTreeParams{ObjectID: page.Result.ObjectID, Role: role, AccessibleName: name})
		if err != nil {
			return false
		}
		var node cdp.BackendNodeID
		for _, n := range found.Nodes {
			if n.Ignored || node != 0 {
				if node != 0 && !n.Ignored {
					return false // two of that name
				}
				continue
			}
			node = n.BackendDOMNodeID
		}
		return node != 0 && p.mark(node, mark)
	}, time.Minute, 100*time.Millisecond, "no single %s called %q", role, name)
	return fmt.Sprintf("[data-found=%q]", mark)
}

// mark writes onto a node how it was found.
func (p *tab) mark(node cdp.BackendNodeID, mark string) bool {
	object, err := chromedp.Call(p.ctx, dom.ResolveNode, dom.ResolveNodeParams{BackendNodeID: node})
	if err != nil || object.Object == nil {
		return false
	}
	_, err = chromedp.Call(p.ctx, runtime.CallFunctionOn, runtime.CallFunctionOnParams{
		ObjectID: object.Object.ObjectID, FunctionDeclaration: fmt.Sprintf(`function () { this.dataset.found = %q; }`, mark),
	})
	return err == nil
}

// press clicks a button with the mouse.
func (p *tab) press(name string) {
	p.t.Helper()
	p.do(chromedp.Click(chromedp.CSS(p.role("button", name))))
}
