package sectorglass.workbench.parts;

import java.util.List;

import org.eclipse.jface.viewers.ITreeContentProvider;

/** The lines of the disk tree. */
final class DiskContent implements ITreeContentProvider {

    @Override
    public Object[] getElements(Object input) {
        return ((List<?>) input).toArray();
    }

    @Override
    public Object[] getChildren(Object parent) {
        return ((DiskNode) parent).children().toArray();
    }

    @Override
    public Object getParent(Object element) {
        return null;
    }

    @Override
    public boolean hasChildren(Object element) {
        return !((DiskNode) element).children().isEmpty();
    }
}
