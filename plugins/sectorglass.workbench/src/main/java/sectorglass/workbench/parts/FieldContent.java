package sectorglass.workbench.parts;

import java.util.ArrayList;
import java.util.List;

import org.eclipse.jface.viewers.ITreeContentProvider;

import sectorglass.decode.FieldNode;
import sectorglass.workbench.model.Explained;

/** The fields of a decoded structure, and below them the bytes that no field explains. The input is an {@link Explained}. */
final class FieldContent implements ITreeContentProvider {

    @Override
    public Object[] getElements(Object input) {
        Explained explained = (Explained) input;
        List<Object> all = new ArrayList<>(explained.root().children());
        Gaps gaps = Gaps.of(explained);
        if (!gaps.ranges().isEmpty()) {
            all.add(gaps);
        }
        return all.toArray();
    }

    @Override
    public Object[] getChildren(Object parent) {
        return parent instanceof Gaps gaps ? gaps.ranges().toArray() : parent instanceof FieldNode node ? node.children().toArray() : new Object[0];
    }

    @Override
    public Object getParent(Object element) {
        if (!(element instanceof FieldNode node)) {
            return null;
        }
        FieldNode parent = node.parent();
        return parent == null || parent.parent() == null ? null : parent;
    }

    @Override
    public boolean hasChildren(Object element) {
        return element instanceof Gaps || element instanceof FieldNode node && !node.children().isEmpty();
    }
}
