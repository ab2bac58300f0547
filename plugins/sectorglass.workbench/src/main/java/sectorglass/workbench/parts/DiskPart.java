package sectorglass.workbench.parts;

import java.util.List;

import org.eclipse.jface.viewers.ColumnViewerToolTipSupport;
import org.eclipse.jface.viewers.DelegatingStyledCellLabelProvider;
import org.eclipse.jface.viewers.IStructuredSelection;
import org.eclipse.jface.viewers.TreeViewer;
import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Composite;

import sectorglass.workbench.look.Look;
import sectorglass.workbench.look.Texts;

/** The disk as a tree: maps, partitions, volumes and the structures one would start with. */
public final class DiskPart extends DeskPart {
    /** Id of the part. */
    public static final String ID = "sectorglass.workbench.disk";

    private EmptyHint hint;
    private TreeViewer tree;
    /** Whether nobody has touched the tree since it was filled: the toolkit itself chooses the first row of a tree that has the focus. */
    private boolean untouched;

    @Override
    void create(Composite parent) {
        hint = new EmptyHint(parent, "disk.empty");
        tree = new TreeViewer(hint.parent(), SWT.SINGLE | SWT.H_SCROLL | SWT.V_SCROLL);
        tree.setContentProvider(new DiskContent());
        tree.setLabelProvider(new DelegatingStyledCellLabelProvider(new DiskLabels()));
        ColumnViewerToolTipSupport.enableFor(tree);
        Look.follow(tree.getTree(), () -> tree.refresh(true));
        tree.addSelectionChangedListener(event -> {
            IStructuredSelection selection = tree.getStructuredSelection();
            if (selection.getFirstElement() instanceof DiskNode node && node.address() >= 0 && tree.getControl().isFocusControl() && !byItself(node)) {
                desk().goTo(node.address(), Texts.of("by.disk"));
            }
        });
        tree.getControl().addListener(SWT.MouseDown, event -> untouched = false);
        tree.getControl().addListener(SWT.KeyDown, event -> untouched = false);
        tree.addDoubleClickListener(event -> {
            Object chosen = tree.getStructuredSelection().getFirstElement();
            tree.setExpandedState(chosen, !tree.getExpandedState(chosen));
        });
    }

    private boolean byItself(DiskNode node) {
        return untouched && tree.getInput() instanceof List<?> roots && !roots.isEmpty() && roots.get(0) == node;
    }

    @Override
    public void diskChanged() {
        untouched = true;
        boolean open = desk().open() != null;
        if (open) {
            tree.setInput(List.of(DiskNode.of(desk().open())));
            tree.expandToLevel(2);
        } else {
            tree.setInput(List.of());
        }
        hint.show(tree.getControl(), open);
    }

    @Override
    public void findingsChanged() {
        untouched = true;
        Object[] expanded = tree.getExpandedElements();
        tree.setInput(List.of(DiskNode.of(desk().open())));
        tree.setExpandedElements(expanded);
        tree.expandToLevel(2);
    }

    @Override
    public void setFocus() {
        hint.parent().setFocus();
    }
}
