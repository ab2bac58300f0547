package sectorglass.workbench.parts;

import org.eclipse.jface.viewers.ITreeContentProvider;

import sectorglass.decode.FieldNode;

/** The fields of a decoded structure. */
final class FieldContent implements ITreeContentProvider {

    @Override
    public Object[] getElements(Object input) {
        return getChildren(input);
    }

    @Override
    public Object[] getChildren(Object parent) {
        return ((FieldNode) parent).children().toArray();
    }

    @Override
    public Object getParent(Object element) {
        FieldNode parent = ((FieldNode) element).parent();
        return parent == null || parent.parent() == null ? null : parent;
    }

    @Override
    public boolean hasChildren(Object element) {
        return !((FieldNode) element).children().isEmpty();
    }
}
