package sectorglass.workbench.parts;

import org.eclipse.jface.action.GroupMarker;
import org.eclipse.jface.action.MenuManager;
import org.eclipse.jface.viewers.ColumnViewerToolTipSupport;
import org.eclipse.jface.viewers.StructuredSelection;
import org.eclipse.jface.viewers.TreeViewer;
import org.eclipse.jface.viewers.TreeViewerColumn;
import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.TreeColumn;
import org.eclipse.ui.IWorkbenchActionConstants;

import sectorglass.decode.FieldNode;
import sectorglass.image.SafeText;
import sectorglass.workbench.look.Look;
import sectorglass.workbench.look.Size;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Explained;

/** The fields of the structure at the caret, as a tree. Choosing one lights its bytes; Enter follows a pointer. */
public final class FieldsPart extends DeskPart {
    /** Id of the part. */
    public static final String ID = "sectorglass.workbench.fields";

    private EmptyHint hint;
    private TreeViewer tree;
    private Explained shown;
    private boolean following;

    @Override
    void create(Composite parent) {
        hint = new EmptyHint(parent, "fields.empty");
        tree = new TreeViewer(hint.parent(), SWT.SINGLE | SWT.FULL_SELECTION | SWT.H_SCROLL | SWT.V_SCROLL);
        tree.getTree().setHeaderVisible(true);
        tree.setUseHashlookup(true);
        column("fields.name", 190, FieldLabels.Column.NAME);
        column("fields.value", 130, FieldLabels.Column.VALUE);
        column("fields.meaning", 170, FieldLabels.Column.MEANING);
        tree.setContentProvider(new FieldContent());
        ColumnViewerToolTipSupport.enableFor(tree);
        HandMenu.add(tree.getTree());
        Look.follow(tree.getTree(), () -> tree.refresh(true));
        tree.getTree().setFont(Size.words());
        Size.follow(tree.getTree(), this::size);
        tree.addSelectionChangedListener(event -> {
            Object chosen = following ? null : tree.getStructuredSelection().getFirstElement();
            if (chosen instanceof FieldNode node) {
                desk().choose(node);
            } else if (chosen instanceof Gaps.Gap gap) {
                desk().select(gap.range().end() - 1, gap.range().start());
            }
        });
        tree.getTree().addListener(SWT.DefaultSelection, event -> desk().follow());
        tree.getTree().addListener(SWT.KeyDown, event -> {
            if (event.keyCode == SWT.BS) {
                desk().back();
            }
        });
        MenuManager menu = new MenuManager();
        menu.add(new GroupMarker(IWorkbenchActionConstants.MB_ADDITIONS));
        tree.getTree().setMenu(menu.createContextMenu(tree.getTree()));
        getSite().registerContextMenu("sectorglass.workbench.fields", menu, tree);
    }

    private void column(String key, int width, FieldLabels.Column column) {
        TreeViewerColumn made = new TreeViewerColumn(tree, SWT.NONE);
        TreeColumn control = made.getColumn();
        control.setText(Texts.of(key));
        control.setWidth(Size.scaled(width));
        control.setMoveable(true);
        made.setLabelProvider(new FieldLabels(column, desk()));
    }

    private void size() {
        tree.getTree().setFont(Size.words());
        for (TreeColumn column : tree.getTree().getColumns()) {
            column.setWidth(Size.changed(column.getWidth()));
        }
        tree.refresh(true);
    }

    @Override
    public void diskChanged() {
        explained();
    }

    @Override
    public void findingsChanged() {
        tree.refresh(true);
    }

    @Override
    public void coverChanged() {
        tree.refresh(true);
    }

    @Override
    public void examChanged() {
        tree.refresh(true);
    }

    @Override
    public void explained() {
        if (hint == null) {
            return;
        }
        Explained explained = desk().explained();
        boolean any = explained != null && explained.root() != null && explained.structure().range().contains(desk().caret());
        following = true;
        try {
            if (any && (shown == null || shown.root() != explained.root())) {
                tree.setInput(explained);
                tree.expandToLevel(2);
            }
            shown = any ? explained : null;
            FieldNode field = desk().field();
            if (any && field != null && tree.getStructuredSelection().getFirstElement() != field) {
                tree.setSelection(new StructuredSelection(field), true);
            } else if (any && field == null && !(tree.getStructuredSelection().getFirstElement() instanceof Gaps.Gap gap
                    && gap.range().equals(desk().selection()))) {
                tree.setSelection(StructuredSelection.EMPTY);
            }
        } finally {
            following = false;
        }
        if (desk().open() == null) {
            hint.say(Texts.of("fields.empty"));
        } else if (explained != null && explained.problem() != null) {
            hint.say(Texts.of("fields.problem", SafeText.of(explained.problem())));
        } else {
            hint.say(Texts.of("fields.none"));
        }
        hint.show(tree.getControl(), any);
        tree.getTree().getColumn(0).setText(any ? SafeText.of(explained.structure().name()) : Texts.of("fields.name"));
    }

    @Override
    public void setFocus() {
        hint.parent().setFocus();
    }
}
