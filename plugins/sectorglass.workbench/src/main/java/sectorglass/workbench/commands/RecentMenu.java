package sectorglass.workbench.commands;

import java.nio.file.Path;
import java.util.List;

import org.eclipse.jface.action.Action;
import org.eclipse.jface.action.ActionContributionItem;
import org.eclipse.jface.action.IContributionItem;
import org.eclipse.ui.actions.CompoundContributionItem;

import sectorglass.workbench.opening.Recent;

/** The recent images as lines of a menu. */
public final class RecentMenu extends CompoundContributionItem {

    @Override
    protected IContributionItem[] getContributionItems() {
        List<Path> images = Recent.images();
        IContributionItem[] items = new IContributionItem[images.size()];
        for (int i = 0; i < items.length; i++) {
            Path image = images.get(i);
            Action action = new Action() {
                @Override
                public void run() {
                    OpenImages.open(image);
                }
            };
            action.setText("&" + (i + 1) + "  " + String.valueOf(image.getFileName()).replace("&", "&&").replace("@", "@ ") + "  ("
                    + String.valueOf(image.getParent()).replace("&", "&&").replace("@", "@ ") + ")@");
            items[i] = new ActionContributionItem(action);
        }
        return items;
    }
}
