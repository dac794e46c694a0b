package planner

import (
	"fmt"
	"strings"

	"seamwright/calc/job"
	"seamwright/calc/schedule"
)

// RenameProduct gives a product of the project's own another id, wherever the file names it.
type RenameProduct struct{ Product, To string }

// Label names the edit.
func (RenameProduct) Label() string { return "rename product" }

func (e RenameProduct) apply(p *patch) error {
	own := entryOf(p.root.get("catalog"), e.Product)
	switch {
	case shipped().products[e.Product].ID != "":
		return fmt.Errorf("%q is a product of the shipped catalog and keeps its name; add one of your own under catalog", e.Product)
	case own == nil:
		return fmt.Errorf("there is no product %q", e.Product)
	case e.To == e.Product:
		return nil
	case p.read.job.Product(e.To) != nil:
		return fmt.Errorf("there is a product %q already", e.To)
	}
	p.set(own.get("id"), text(e.To))
	p.renameProduct(p.root, e.Product, e.To)
	p.eachUsed(func(n *node) {
		if n.text == e.Product || strings.HasPrefix(n.text, e.Product+" ") { // with its size, as in the takeoff
			p.set(n, text(e.To+strings.TrimPrefix(n.text, e.Product)))
		}
	})
	return nil
}

// renameProduct changes the product that a lining, a backing, a piece in stock or a layer of theirs names, anywhere below.
func (p *patch) renameProduct(n *node, from, to string) {
	for _, item := range n.items {
		p.renameProduct(item, from, to)
	}
	for _, x := range n.pairs {
		if x.key.text != "product" {
			p.renameProduct(x.value, from, to)
			continue
		}
		for _, layer := range append([]*node{x.value}, x.value.items...) {
			if layer.kind == scalar && layer.text == from {
				p.set(layer, text(to))
			}
		}
	}
}

// eachUsed calls f for every item that progress says is used.
func (p *patch) eachUsed(f func(*node)) {
	p.eachDone(func(done *node) {
		if used := done.get("used"); used != nil {
			for _, u := range used.items {
				if item := u.get("item"); item != nil {
					f(item)
				}
			}
		}
	})
}

// eachDone calls f for every entry of progress.
func (p *patch) eachDone(f func(*node)) {
	if progress := p.root.get("progress"); progress != nil {
		for _, n := range progress.items {
			f(n)
		}
	}
}

// renameTasks gives the tasks that are ticked off the ids that they have once a room or wall is called otherwise.
func (p *patch) renameTasks(renamed func(id, from, to string) string, from, to string) {
	rooms := roomIDs(p.read.job.Rooms)
	p.eachDone(func(done *node) {
		task := done.get("task")
		if task == nil {
			return
		}
		if now := schedule.CurrentID(task.text, rooms); renamed(now, from, to) != now {
			p.set(task, text(renamed(now, from, to)))
		}
	})
}

func roomIDs(rooms []job.Room) (ids []string) {
	for i := range rooms {
		ids = append(ids, rooms[i].ID)
	}
	return ids
}
