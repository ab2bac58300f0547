package sectorglass.workbench.tests;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;

import org.eclipse.core.commands.Command;
import org.eclipse.core.commands.common.CommandException;
import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.StyledText;
import org.eclipse.swt.graphics.Point;
import org.eclipse.swt.graphics.Rectangle;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Canvas;
import org.eclipse.swt.widgets.Combo;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.Text;
import org.eclipse.swt.widgets.Tree;
import org.eclipse.swt.widgets.TreeItem;
import org.eclipse.ui.PlatformUI;
import org.eclipse.ui.commands.ICommandService;
import org.eclipse.ui.handlers.IHandlerService;

/** Does one random thing after the other in the window. Leaves alone what opens a dialog of the system or closes the window. */
final class MonkeyHand {
    private static final int[] KEYS = {SWT.ARROW_DOWN, SWT.ARROW_UP, SWT.ARROW_LEFT, SWT.ARROW_RIGHT, SWT.PAGE_DOWN, SWT.PAGE_UP, SWT.HOME, SWT.END,
        SWT.CR, SWT.BS, SWT.ESC, '+', '-', ' ', SWT.KEYPAD_ADD, SWT.KEYPAD_SUBTRACT, 'c', 'a'};
    private static final int[] MASKS = {0, 0, 0, SWT.MOD1, SWT.MOD2, SWT.MOD3, SWT.MOD1 | SWT.MOD2};
    private static final String[] WORDS = {"", "55 AA", "crc", "0/32/33", "2048", "0xFFFFFFFFFFFFFFFF", "backup gpt", "500 GB", "?? ??", "\u00E4\uD83D\uDE00",
        "2026-01-01", "zz", "00 00 00 00 00 00 00 00"};
    /** Commands that ask in a dialog of the workbench, which is closed again. */
    private static final Set<String> ASK = Set.of("lba", "byte", "format", "preferences", "find");
    private static final String OURS = "sectorglass.workbench.";

    private final Random random;
    private final Map<String, Integer> counts = new TreeMap<>();
    private final List<String> commands;
    private String last = "";

    MonkeyHand(Random random) {
        this.random = random;
        commands = Ui.get(() -> Arrays.stream(PlatformUI.getWorkbench().getService(ICommandService.class).getDefinedCommands())
                .filter(MonkeyHand::harmless).map(Command::getId).sorted().toList());
    }

    private static boolean harmless(Command command) {
        try {
            String word = command.getId().substring(command.getId().lastIndexOf('.') + 1);
            return command.getId().startsWith(OURS) && (!command.getName().endsWith("\u2026") || ASK.contains(word))
                    && !word.equals("demo") && !word.equals("close");
        } catch (org.eclipse.core.commands.common.NotDefinedException e) {
            return false;
        }
    }

    String last() {
        return last;
    }

    String counts() {
        return counts.toString();
    }

    /** One random thing. */
    void step() {
        Ui.run(() -> {
            int what = random.nextInt(100);
            if (what < 22) {
                command();
            } else if (what < 50) {
                key();
            } else if (what < 72) {
                click();
            } else if (what < 84) {
                choose();
            } else if (what < 90) {
                press();
            } else if (what < 95) {
                type();
            } else {
                goSomewhere();
            }
        });
    }

    private void did(String kind, String what) {
        counts.merge(kind, 1, Integer::sum);
        last = kind + " " + what;
    }

    private <T> T any(List<T> of) {
        return of.isEmpty() ? null : of.get(random.nextInt(of.size()));
    }

    private <T extends Control> T seen(Class<T> type) {
        List<T> all = new ArrayList<>(Ui.all(type));
        all.removeIf(control -> !control.isVisible() || control.getSize().x <= 1 || !control.isEnabled());
        return any(all);
    }

    private void command() {
        String id = any(commands);
        did("command", id);
        try {
            PlatformUI.getWorkbench().getService(IHandlerService.class).executeCommand(id, null);
        } catch (CommandException e) {
            if (e.getCause() != null) {
                throw new IllegalStateException(id, e);
            }
            // not enabled now
        }
    }

    private void key() {
        Control control = random.nextBoolean() ? Ui.canvas() : seen(Canvas.class);
        if (control == null) {
            return;
        }
        Event event = new Event();
        event.keyCode = KEYS[random.nextInt(KEYS.length)];
        event.character = event.keyCode < 128 ? (char) event.keyCode : 0;
        event.stateMask = MASKS[random.nextInt(MASKS.length)];
        did("key", event.keyCode + " on " + control.getClass().getSimpleName());
        control.notifyListeners(SWT.KeyDown, event);
    }

    private void click() {
        Control control = random.nextBoolean() ? Ui.canvas() : seen(Canvas.class);
        if (control == null || control instanceof StyledText) {
            return;
        }
        Rectangle area = control.getBounds();
        int x = random.nextInt(Math.max(1, area.width));
        int y = random.nextInt(Math.max(1, area.height));
        int mask = random.nextInt(4) == 0 ? SWT.MOD2 : 0;
        did("click", x + "," + y + " on " + control.getClass().getSimpleName());
        if (control.getClass().getName().startsWith("sectorglass")) {
            mouse(control, SWT.MouseDown, x, y, mask);
            if (random.nextBoolean() && !control.isDisposed()) {
                mouse(control, SWT.MouseMove, random.nextInt(Math.max(1, area.width)), random.nextInt(Math.max(1, area.height)), SWT.BUTTON1);
            }
            if (!control.isDisposed()) {
                mouse(control, SWT.MouseUp, x, y, mask);
            }
            if (random.nextInt(5) == 0 && !control.isDisposed()) {
                Event wheel = new Event();
                wheel.count = random.nextInt(21) - 10;
                wheel.x = x;
                wheel.y = y;
                control.notifyListeners(SWT.MouseWheel, wheel);
            }
        }
    }

    private static void mouse(Control control, int type, int x, int y, int mask) {
        Event event = new Event();
        event.button = 1;
        event.x = x;
        event.y = y;
        event.count = 1;
        event.stateMask = mask;
        control.notifyListeners(type, event);
    }

    private void choose() {
        if (random.nextBoolean()) {
            Table table = seen(Table.class);
            if (table != null && table.getItemCount() > 0) {
                int row = random.nextInt(table.getItemCount());
                did("row", String.valueOf(row));
                table.setSelection(row);
                Event event = new Event();
                event.item = table.getItem(row);
                table.notifyListeners(random.nextInt(6) == 0 ? SWT.DefaultSelection : SWT.Selection, event);
            }
            return;
        }
        Tree tree = seen(Tree.class);
        if (tree != null && tree.getItemCount() > 0) {
            TreeItem item = tree.getItem(random.nextInt(tree.getItemCount()));
            for (int depth = random.nextInt(4); depth > 0 && item.getItemCount() > 0 && item.getExpanded(); depth--) {
                item = item.getItem(random.nextInt(item.getItemCount()));
            }
            did("line", item.getText());
            tree.setSelection(item);
            Event event = new Event();
            event.item = item;
            tree.notifyListeners(SWT.Selection, event);
        }
    }

    private void press() {
        if (random.nextBoolean()) {
            Combo combo = seen(Combo.class);
            if (combo != null && combo.getItemCount() > 0) {
                combo.select(random.nextInt(combo.getItemCount()));
                did("list", combo.getText());
                combo.notifyListeners(SWT.Selection, new Event());
            }
            return;
        }
        Button button = seen(Button.class);
        if (button != null && !button.getText().endsWith("\u2026") && !button.getText().isEmpty()) {
            did("button", button.getText());
            if ((button.getStyle() & (SWT.CHECK | SWT.TOGGLE)) != 0) {
                button.setSelection(!button.getSelection());
            }
            button.notifyListeners(SWT.Selection, new Event());
        }
    }

    private void type() {
        Text text = seen(Text.class);
        if (text != null && text.getEditable()) {
            String words = WORDS[random.nextInt(WORDS.length)];
            did("text", words);
            text.setText(words);
            if (random.nextInt(3) == 0) {
                text.notifyListeners(SWT.DefaultSelection, new Event());
            }
        }
    }

    private void goSomewhere() {
        if (Ui.desk().open() != null) {
            long bytes = Ui.desk().open().image().bytes();
            long at = switch (random.nextInt(4)) {
                case 0 -> random.nextInt(1 << 16);
                case 1 -> bytes - 1 - random.nextInt(1 << 16);
                case 2 -> random.nextLong();
                default -> (long) (random.nextDouble() * bytes);
            };
            did("place", String.valueOf(at));
            Ui.desk().goTo(at, "monkey");
        } else {
            Point size = Ui.window().getSize();
            did("size", size.toString());
        }
    }
}
