package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.atomic.AtomicReference;

import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Display;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.swt.widgets.Table;
import org.junit.jupiter.api.Test;

import sectorglass.image.OpenOptions;
import sectorglass.make.ContentKind;
import sectorglass.make.DataFile;
import sectorglass.make.DiskDescription;
import sectorglass.make.DiskMaker;
import sectorglass.make.Folder;
import sectorglass.make.Times;
import sectorglass.make.VolumeDescription;
import sectorglass.make.VolumeKind;
import sectorglass.recovery.Job.FurtherDisk;
import sectorglass.recovery.JobFile;
import sectorglass.workbench.commands.FurtherDisksDialog;
import sectorglass.workbench.look.Texts;

/** The further disks of a set: added and taken out in the window, kept in the job file, there again at the next opening. */
class GroupTest {
    private static final int MIB = 1 << 20;
    private static final Times WHEN = Times.at(Instant.parse("2024-05-06T07:08:10Z"));

    /** Two disks of a linear set that holds a FAT16 volume of 16 MiB. Superblock: Linux kernel include/uapi/linux/raid/md_p.h. */
    private static Path set(Path folder) throws IOException {
        Path volume = folder.resolve("volume.img");
        Folder root = Folder.root(WHEN, DataFile.of("NOTES.TXT", 3000, ContentKind.NOTICE, WHEN), DataFile.of("LONG.TXT", 9 << 20, ContentKind.NOTICE, WHEN));
        DiskMaker.withoutPlaces().make(DiskDescription.volume(32768, 512, 1, new VolumeDescription(VolumeKind.FAT16, "SHARED", 0x1234ABCDL, 2048, root)), volume);
        byte[] bytes = Files.readAllBytes(volume);
        Files.delete(volume);
        for (int place = 0; place < 2; place++) {
            ByteBuffer sb = ByteBuffer.allocate(256 + 2 * 8).order(ByteOrder.LITTLE_ENDIAN);
            sb.putInt(0, 0xA92B4EFC).putInt(4, 1).put(16, (byte) 7).putInt(72, -1).putInt(92, 2).putLong(128, 2048).putLong(136, 16384).putLong(144, 8)
                    .putInt(160, place).putLong(200, 5).putInt(220, 8);
            for (int i = 0; i < 8; i++) {
                sb.putShort(256 + 2 * i, (short) (i < 2 ? i : 0xFFFF));
            }
            long sum = 0;
            for (int at = 0; at < sb.capacity(); at += 4) {
                sum += sb.getInt(at) & 0xFFFFFFFFL;
            }
            sb.putInt(216, (int) ((sum & 0xFFFFFFFFL) + (sum >>> 32)));
            try (RandomAccessFile disk = new RandomAccessFile(folder.resolve("disk-" + place + ".img").toFile(), "rw")) {
                disk.seek(4096);
                disk.write(sb.array());
                disk.seek(MIB);
                disk.write(bytes, place * 8 * MIB, 8 * MIB);
            }
        }
        return folder.resolve("disk-0.img");
    }

    private static long assembled() {
        return Ui.desk().open().disk().partitions().stream().filter(p -> p.volume() != null && "SHARED".equals(p.volume().info().label()))
                .mapToLong(p -> p.range().count()).max().orElse(-1);
    }

    private static List<FurtherDisk> kept(Path image) {
        try {
            return JobFile.open(JobFile.beside(image)).job().furtherDisks();
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }

    @Test
    void aFurtherDiskIsAddedKeptFoundAgainAndTakenOut() throws IOException {
        Path image = set(Files.createTempDirectory("sectorglass-set"));
        Ui.open(image, OpenOptions.DEFAULT);
        assertEquals(16384, Ui.get(GroupTest::assembled).longValue(), "the first half alone");
        assertTrue(Ui.desk().open().disk().remarks().toString().contains("Missing: disk 1"), Ui.desk().open().disk().remarks().toString());
        Ui.run(() -> FurtherDisksDialog.take(Ui.desk().open(), List.of(new FurtherDisk("disk-1.img", null))));
        Ui.until("the set is whole", () -> assembled() == 32768);
        assertEquals(List.of(), Ui.desk().open().disk().remarks());
        assertEquals(List.of(new FurtherDisk("disk-1.img", null)), kept(image));
        Ui.until("it is judged", () -> Ui.desk().open().findings() != null);
        Ui.open(image, OpenOptions.DEFAULT);
        assertEquals(32768, Ui.get(GroupTest::assembled).longValue(), "opened again");

        AtomicReference<String> shown = new AtomicReference<>();
        Ui.run(() -> Display.getCurrent().timerExec(50, new Runnable() {
            @Override
            public void run() {
                for (Shell shell : Display.getCurrent().getShells()) {
                    if (shell.getText().equals(Texts.of("disks.title")) && !Ui.all(shell, Table.class).isEmpty()) {
                        Table table = Ui.all(shell, Table.class).get(0);
                        shown.set(table.getItem(0).getText(0));
                        table.selectAll();
                        table.notifyListeners(SWT.Selection, new Event());
                        press(shell, Texts.of("disks.remove"));
                        shell.getDefaultButton().notifyListeners(SWT.Selection, new Event());
                        return;
                    }
                }
                Display.getCurrent().timerExec(50, this);
            }
        }));
        Ui.command("sectorglass.workbench.disks");
        assertEquals("disk-1.img", shown.get());
        Ui.until("the set is in halves", () -> assembled() == 16384);
        assertEquals(List.of(), kept(image));
    }

    private static void press(Shell shell, String text) {
        Ui.all(shell, Button.class).stream().filter(b -> b.getText().equals(text)).findFirst().orElseThrow()
                .notifyListeners(SWT.Selection, new Event());
    }
}
