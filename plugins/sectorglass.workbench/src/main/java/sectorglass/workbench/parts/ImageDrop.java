package sectorglass.workbench.parts;

import java.nio.file.Path;

import org.eclipse.swt.dnd.DropTarget;
import org.eclipse.swt.dnd.DropTargetAdapter;
import org.eclipse.swt.dnd.DropTargetEvent;
import org.eclipse.swt.dnd.FileTransfer;
import org.eclipse.swt.widgets.Control;

import sectorglass.workbench.commands.OpenImages;

/** Opens an image that is dropped. */
public final class ImageDrop {

    private ImageDrop() {
    }

    /** Lets files be dropped on a control; the first one is opened. */
    public static void accept(Control control, int operations) {
        DropTarget target = new DropTarget(control, operations);
        target.setTransfer(FileTransfer.getInstance());
        target.addDropListener(new DropTargetAdapter() {
            @Override
            public void drop(DropTargetEvent event) {
                if (event.data instanceof String[] files && files.length > 0) {
                    OpenImages.open(Path.of(files[0]));
                }
            }
        });
    }
}
