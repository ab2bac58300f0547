package sectorglass.workbench.parts;

import org.eclipse.jface.viewers.DelegatingStyledCellLabelProvider.IStyledLabelProvider;
import org.eclipse.jface.viewers.IToolTipProvider;
import org.eclipse.jface.viewers.LabelProvider;
import org.eclipse.jface.viewers.StyledString;
import org.eclipse.swt.graphics.Image;

import sectorglass.workbench.look.SignImages;

/** Texts and signs of the disk tree. */
final class DiskLabels extends LabelProvider implements IStyledLabelProvider, IToolTipProvider {
    private final SignImages images = new SignImages();

    @Override
    public StyledString getStyledText(Object element) {
        DiskNode node = (DiskNode) element;
        StyledString text = new StyledString(node.name());
        if (!node.more().isEmpty()) {
            text.append("   " + node.more(), QuietStyle.STYLER);
        }
        return text;
    }

    @Override
    public String getText(Object element) {
        return ((DiskNode) element).name();
    }

    @Override
    public Image getImage(Object element) {
        DiskNode node = (DiskNode) element;
        return node.worst() == null ? null : images.of(node.worst());
    }

    @Override
    public String getToolTipText(Object element) {
        return ((DiskNode) element).tip();
    }

    @Override
    public void dispose() {
        images.dispose();
        super.dispose();
    }
}
