package sectorglass.exfat;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.ClaimIndex;
import sectorglass.disk.CompactTree;
import sectorglass.disk.Content;
import sectorglass.disk.ExtentContent;
import sectorglass.disk.FileEntry;
import sectorglass.disk.FileTimes;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Progress;

/** The files of an exFAT volume. */
final class ExfatFiles implements Files {

    private static final String[] ATTRIBUTES = {"read-only", "hidden", "system", null, null, "archive"};

    private final ExfatVolume volume;
    private final VolumeSite site;
    private final Fat fat;
    private FolderList folders;
    private ClaimIndex places;
    private CompactTree tree;
    private Bitmap bitmap;
    private List<Chain> lost = List.of();

    ExfatFiles(ExfatVolume volume) {
        this.volume = volume;
        this.site = volume.site();
        this.fat = new Fat(site, volume.found().geometry());
    }

    @Override
    public synchronized FileTree tree(Progress progress) {
        return compact(progress);
    }

    /** The tree with its keys. */
    synchronized CompactTree compact(Progress progress) {
        if (tree == null) {
            FolderList list = new FolderList(site, fat);
            TreeScan scan = new TreeScan(fat, list, Math.min(fat.geometry().lastCluster(),
                    Math.max(2, site.image().bytes() / fat.geometry().clusterBytes() + 2)));
            bitmap = volume.bitmap();
            CompactTree built = scan.build(bitmap, volume.tables(), this::entry, progress);
            folders = list;
            lost = scan.lost();
            tree = built;
        }
        return tree;
    }

    /** The folder of the tree whose clusters hold an image byte, or null. */
    synchronized Directory folderAt(long imageByte) {
        if (places == null) {
            places = folders(Progress.NONE).places();
        }
        for (int row = places.firstNear(imageByte); row < places.rows() && places.start(row) <= imageByte; row++) {
            if (imageByte < places.start(row) + places.length(row)) {
                return folders.directory(places.entry(row));
            }
        }
        return null;
    }

    /** The folders of the tree. */
    synchronized FolderList folders(Progress progress) {
        compact(progress);
        return folders;
    }

    private EntrySet set(long key) {
        EntrySet set = new EntrySet();
        TreeScan.take(folders.directory(FolderList.folder(key)), FolderList.slot(key), set);
        return set;
    }

    private synchronized FileEntry entry(FileTree of, int id, long key) {
        if (key < 0) {
            List<String> remarks = key == TreeScan.ROOT || id == of.withoutFolder() ? List.of() : placement(of, id, key).doubts();
            return new FileEntry(id, of.parent(id), -1, of.name(id), of.path(id), of.folder(id), false, of.bytes(id), FileTimes.NONE,
                    List.of(), 1, of.folder(id) ? List.of() : List.of(new FileEntry.Stream("", of.bytes(id), "plain")), null, remarks);
        }
        EntrySet set = set(key);
        List<String> remarks = new ArrayList<>();
        boolean whole = set.count() == 1 + set.secondaries() && set.directory().isRead(set.slot(), set.count());
        if (!whole) {
            remarks.add("Its entries are not complete: name, place or length may be wrong.");
        } else if (set.checksum(of.deleted(id)) != set.storedChecksum()) {
            remarks.add("The checksum of its entries does not hold: name, place or length may be wrong.");
        } else if (of.deleted(id)) {
            remarks.add("The checksum of its entries holds: name, place and length are those it had.");
        }
        if (!of.folder(id)) {
            remarks.addAll(Placement.of(site, fat, bitmap, set, of.deleted(id)).doubts());
        }
        List<String> attributes = new ArrayList<>();
        for (int i = 0; i < ATTRIBUTES.length; i++) {
            if (ATTRIBUTES[i] != null && (set.attributes() >> i & 1) != 0) {
                attributes.add(ATTRIBUTES[i]);
            }
        }
        Directory slots = set.directory();
        FileTimes times = new FileTimes(TreeScan.stamp(slots, set.slot(), 8, 20, 22), TreeScan.stamp(slots, set.slot(), 12, 21, 23), null,
                TreeScan.stamp(slots, set.slot(), 16, -1, 24));
        return new FileEntry(id, of.parent(id), -1, of.name(id), of.path(id), of.folder(id), of.deleted(id), of.bytes(id), times,
                List.copyOf(attributes), 1, of.folder(id) ? List.of() : List.of(new FileEntry.Stream("", of.bytes(id), "plain")), null,
                List.copyOf(remarks));
    }

    @Override
    public synchronized Content content(int entry, String stream) {
        CompactTree of = compact(Progress.NONE);
        long key = of.key(entry);
        if (of.folder(entry) || !stream.isEmpty()) {
            return null;
        }
        Placement placement = placement(of, entry, key);
        return new ExtentContent(site.image(), of.bytes(entry), placement.extents(), placement.doubts());
    }

    /** Where the content of a file stands. */
    synchronized Placement placement(FileTree of, int id, long key) {
        if (key < 0) {
            return key == TreeScan.ROOT || TreeScan.lostIndex(key) >= lost.size() ? new Placement(List.of(), List.of())
                    : Placement.lost(site, fat, lost.get(TreeScan.lostIndex(key)), !of.unreadMetadata().isEmpty());
        }
        return Placement.of(site, fat, bitmap, set(key), of.deleted(id));
    }
}
