package sectorglass.fat;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

import sectorglass.disk.ClaimIndex;
import sectorglass.disk.CompactTree;
import sectorglass.disk.Content;
import sectorglass.disk.ExtentContent;
import sectorglass.disk.FileEntry;
import sectorglass.disk.FileStamp;
import sectorglass.disk.FileTimes;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Progress;

/** The files of a FAT volume. */
final class FatFiles implements Files {

    private final FatVolume volume;
    private final VolumeSite site;
    private final FatTable table;
    private FolderList folders;
    private ClaimIndex places;
    private CompactTree tree;
    private BitSet shared = new BitSet();

    FatFiles(FatVolume volume) {
        this.volume = volume;
        this.site = volume.site();
        this.table = volume.table();
    }

    @Override
    public synchronized FileTree tree(Progress progress) {
        return compact(progress);
    }

    /** The tree with its keys. */
    synchronized CompactTree compact(Progress progress) {
        if (tree == null) {
            FolderList list = new FolderList(site, table);
            TreeScan scan = new TreeScan(site, table, list);
            CompactTree built = scan.build(this::entry, progress);
            folders = list;
            shared = scan.shared();
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

    private synchronized FileEntry entry(FileTree of, int id, long key) {
        List<String> remarks = new ArrayList<>();
        if (key < 0) {
            if (key != TreeScan.ROOT && id != of.withoutFolder()) {
                remarks.add((of.unreadMetadata().isEmpty() ? "No directory entry leads here"
                        : "No directory entry that was read leads here; its owner may be in a directory that was not read")
                        + "; its length is that of its chain in whole clusters.");
            }
            return new FileEntry(id, of.parent(id), -1, of.name(id), of.path(id), of.folder(id), false, of.bytes(id), FileTimes.NONE,
                    List.of(), 1, streams(of, id), null, List.copyOf(remarks));
        }
        Directory directory = folders.directory(FolderList.folder(key));
        int slot = FolderList.slot(key);
        Slot fields = Slot.of(directory, slot, volume.found().geometry().kind());
        if (directory.u8(slot, 0) == 0xE5 && !DeletedName.of(directory, slot).certain()) {
            remarks.add("Deleted: the first character of its name is lost.");
        }
        if (!of.folder(id)) {
            remarks.addAll(placement(of, id, key).doubts());
        }
        return new FileEntry(id, of.parent(id), -1, of.name(id), of.path(id), of.folder(id), of.deleted(id), of.bytes(id),
                new FileTimes(FileStamp.local(fields.created()), FileStamp.local(fields.written()), null,
                        FileStamp.local(fields.accessed())), fields.words(), 1, streams(of, id), null, List.copyOf(remarks));
    }

    private static List<FileEntry.Stream> streams(FileTree of, int id) {
        return of.folder(id) ? List.of() : List.of(new FileEntry.Stream("", of.bytes(id), "plain"));
    }

    @Override
    public synchronized Content content(int entry, String stream) {
        CompactTree of = compact(Progress.NONE);
        if (of.folder(entry) || !stream.isEmpty()) {
            return null;
        }
        Placement placement = placement(of, entry, of.key(entry));
        return new ExtentContent(site.image(), of.bytes(entry), placement.extents(), placement.doubts());
    }

    /** Where the content of a file stands. */
    synchronized Placement placement(FileTree of, int id, long key) {
        if (key < 0) {
            return key == TreeScan.ROOT ? new Placement(List.of(), List.of())
                    : Placement.live(site, table, TreeScan.lostCluster(key), of.bytes(id));
        }
        Slot fields = Slot.of(folders.directory(FolderList.folder(key)), FolderList.slot(key), volume.found().geometry().kind());
        if (of.deleted(id)) {
            Geometry geometry = volume.found().geometry();
            boolean upperLost = geometry.kind() == FatKind.FAT32 && geometry.clusters() > 65536 && fields.cluster() < 65536;
            return Placement.deleted(site, table, fields.cluster(), fields.bytes(), upperLost);
        }
        Placement placement = Placement.live(site, table, fields.cluster(), fields.bytes());
        return claimedTwice(placement) ? new Placement(placement.extents(), append(placement.doubts(),
                "Another file claims some of its clusters too.")) : placement;
    }

    private boolean claimedTwice(Placement placement) {
        if (shared.isEmpty()) {
            return false;
        }
        Geometry geometry = volume.found().geometry();
        return placement.extents().stream().anyMatch(e -> {
            int first = (int) geometry.clusterAt(e.imageByte() - site.firstByte());
            int next = shared.nextSetBit(first);
            return next >= 0 && next < first + (e.length() + geometry.clusterBytes() - 1) / geometry.clusterBytes();
        });
    }

    private static List<String> append(List<String> some, String more) {
        List<String> all = new ArrayList<>(some);
        all.add(more);
        return List.copyOf(all);
    }
}
