package firmlever.cli;

import firmlever.cli.Faults.Deed;
import java.io.File;
import java.io.IOException;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.lang.reflect.Proxy;
import java.net.URI;
import java.nio.ByteBuffer;
import java.nio.MappedByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.ReadableByteChannel;
import java.nio.channels.SeekableByteChannel;
import java.nio.channels.WritableByteChannel;
import java.nio.file.AccessMode;
import java.nio.file.CopyOption;
import java.nio.file.DirectoryStream;
import java.nio.file.FileStore;
import java.nio.file.FileSystem;
import java.nio.file.LinkOption;
import java.nio.file.OpenOption;
import java.nio.file.Path;
import java.nio.file.PathMatcher;
import java.nio.file.WatchService;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.FileAttributeView;
import java.nio.file.attribute.UserPrincipalLookupService;
import java.nio.file.spi.FileSystemProvider;
import java.util.Iterator;
import java.util.Map;
import java.util.Set;
import java.util.stream.StreamSupport;

/**
 * The machine's own file system, which fails where {@link Faults} says so. A process takes it for
 * all its files: {@code -Djava.nio.file.spi.DefaultFileSystemProvider=firmlever.cli.FailingFiles}.
 */
public final class FailingFiles extends FileSystemProvider {
  private final FileSystemProvider real;
  private final FileSystem files;

  /** Called by Java, with the provider it would take otherwise. */
  public FailingFiles(FileSystemProvider real) {
    this.real = real;
    this.files = new Files(real.getFileSystem(URI.create("file:///")));
  }

  /** A path of the real file system that says it belongs to this one. */
  private Path ours(Path path) {
    if (path == null) {
      return null;
    }
    return (Path)
        Proxy.newProxyInstance(
            getClass().getClassLoader(),
            new Class<?>[] {Path.class, Real.class},
            (self, method, args) -> asked(path, method, args));
  }

  /** The path behind one of ours. */
  private interface Real {
    Path real();
  }

  static Path real(Path path) {
    return path instanceof Real one ? one.real() : path;
  }

  private Object asked(Path path, Method method, Object[] args) throws Throwable {
    switch (method.getName()) {
      case "real":
        return path;
      case "getFileSystem":
        return files;
      case "toFile":
        return new File(path.toString());
      case "toRealPath":
        Faults.before(Deed.LOOK, path);
        break;
      default:
    }
    Object[] given = args == null ? new Object[0] : args.clone();
    for (int i = 0; i < given.length; i++) {
      given[i] = given[i] instanceof Path each ? real(each) : given[i];
    }
    Object answer;
    try {
      answer = method.invoke(path, given);
    } catch (InvocationTargetException e) {
      throw e.getCause();
    }
    if (answer instanceof Iterator<?> each) {
      return StreamSupport.stream(path.spliterator(), false).map(this::ours).iterator();
    }
    return answer instanceof Path each ? ours(each) : answer;
  }

  @Override
  public String getScheme() {
    return real.getScheme();
  }

  @Override
  public FileSystem newFileSystem(URI uri, Map<String, ?> settings) throws IOException {
    return real.newFileSystem(uri, settings);
  }

  @Override
  public FileSystem getFileSystem(URI uri) {
    return files;
  }

  @Override
  public Path getPath(URI uri) {
    return ours(real.getPath(uri));
  }

  @Override
  public FileChannel newFileChannel(
      Path path, Set<? extends OpenOption> options, FileAttribute<?>... attributes)
      throws IOException {
    Faults.before(Deed.OPEN, real(path));
    return new Channel(real(path), real.newFileChannel(real(path), options, attributes));
  }

  @Override
  public SeekableByteChannel newByteChannel(
      Path path, Set<? extends OpenOption> options, FileAttribute<?>... attributes)
      throws IOException {
    return newFileChannel(path, options, attributes);
  }

  @Override
  public DirectoryStream<Path> newDirectoryStream(
      Path folder, DirectoryStream.Filter<? super Path> filter) throws IOException {
    Faults.before(Deed.LOOK, real(folder));
    DirectoryStream<Path> found =
        real.newDirectoryStream(real(folder), each -> filter.accept(ours(each)));
    return new DirectoryStream<>() {
      @Override
      public Iterator<Path> iterator() {
        return StreamSupport.stream(found.spliterator(), false)
            .map(FailingFiles.this::ours)
            .iterator();
      }

      @Override
      public void close() throws IOException {
        found.close();
      }
    };
  }

  @Override
  public void createDirectory(Path folder, FileAttribute<?>... attributes) throws IOException {
    Faults.before(Deed.FOLDER, real(folder));
    real.createDirectory(real(folder), attributes);
  }

  @Override
  public void delete(Path path) throws IOException {
    Faults.before(Deed.DELETE, real(path));
    real.delete(real(path));
  }

  @Override
  public void copy(Path from, Path to, CopyOption... options) throws IOException {
    Faults.before(Deed.WRITE, real(to));
    real.copy(real(from), real(to), options);
  }

  @Override
  public void move(Path from, Path to, CopyOption... options) throws IOException {
    Faults.before(Deed.MOVE, real(to));
    real.move(real(from), real(to), options);
  }

  @Override
  public boolean isSameFile(Path one, Path other) throws IOException {
    return real.isSameFile(real(one), real(other));
  }

  @Override
  public boolean isHidden(Path path) throws IOException {
    return real.isHidden(real(path));
  }

  @Override
  public FileStore getFileStore(Path path) throws IOException {
    Faults.before(Deed.LOOK, real(path));
    return real.getFileStore(real(path));
  }

  @Override
  public void checkAccess(Path path, AccessMode... modes) throws IOException {
    Faults.before(Deed.LOOK, real(path));
    real.checkAccess(real(path), modes);
  }

  @Override
  public Path readSymbolicLink(Path link) throws IOException {
    return ours(real.readSymbolicLink(real(link)));
  }

  @Override
  public <V extends FileAttributeView> V getFileAttributeView(
      Path path, Class<V> type, LinkOption... options) {
    return real.getFileAttributeView(real(path), type, options);
  }

  @Override
  public <A extends BasicFileAttributes> A readAttributes(
      Path path, Class<A> type, LinkOption... options) throws IOException {
    Faults.before(Deed.LOOK, real(path));
    return real.readAttributes(real(path), type, options);
  }

  @Override
  public Map<String, Object> readAttributes(Path path, String names, LinkOption... options)
      throws IOException {
    Faults.before(Deed.LOOK, real(path));
    return real.readAttributes(real(path), names, options);
  }

  @Override
  public void setAttribute(Path path, String name, Object value, LinkOption... options)
      throws IOException {
    Faults.before(Deed.WRITE, real(path));
    real.setAttribute(real(path), name, value, options);
  }

  private final class Files extends FileSystem {
    private final FileSystem behind;

    private Files(FileSystem behind) {
      this.behind = behind;
    }

    @Override
    public FileSystemProvider provider() {
      return FailingFiles.this;
    }

    @Override
    public void close() throws IOException {
      behind.close();
    }

    @Override
    public boolean isOpen() {
      return behind.isOpen();
    }

    @Override
    public boolean isReadOnly() {
      return behind.isReadOnly();
    }

    @Override
    public String getSeparator() {
      return behind.getSeparator();
    }

    @Override
    public Iterable<Path> getRootDirectories() {
      return StreamSupport.stream(behind.getRootDirectories().spliterator(), false)
          .map(FailingFiles.this::ours)
          .toList();
    }

    @Override
    public Iterable<FileStore> getFileStores() {
      return behind.getFileStores();
    }

    @Override
    public Set<String> supportedFileAttributeViews() {
      return behind.supportedFileAttributeViews();
    }

    @Override
    public Path getPath(String first, String... more) {
      return ours(behind.getPath(first, more));
    }

    @Override
    public PathMatcher getPathMatcher(String pattern) {
      PathMatcher matcher = behind.getPathMatcher(pattern);
      return path -> matcher.matches(real(path));
    }

    @Override
    public UserPrincipalLookupService getUserPrincipalLookupService() {
      return behind.getUserPrincipalLookupService();
    }

    @Override
    public WatchService newWatchService() throws IOException {
      return behind.newWatchService();
    }
  }

  private static final class Channel extends FileChannel {
    private final Path path;
    private final FileChannel behind;

    private Channel(Path path, FileChannel behind) {
      this.path = path;
      this.behind = behind;
    }

    /** Writes through some of the bytes. */
    private interface Through {
      int write(ByteBuffer some) throws IOException;
    }

    /** Of what is to be written the first half still reaches the disk, where this one fails. */
    private int written(ByteBuffer bytes, Through through) throws IOException {
      boolean whole = Faults.mayWriteAll(path);
      ByteBuffer some = bytes.slice();
      some.limit(whole ? some.limit() : some.limit() / 2);
      int count = through.write(some);
      if (!whole) {
        Faults.afterHalf();
      }
      bytes.position(bytes.position() + count);
      return count;
    }

    @Override
    public int write(ByteBuffer bytes) throws IOException {
      return written(bytes, behind::write);
    }

    @Override
    public int write(ByteBuffer bytes, long at) throws IOException {
      return written(bytes, some -> behind.write(some, at));
    }

    @Override
    public long write(ByteBuffer[] bytes, int from, int count) throws IOException {
      return count == 0 ? 0 : write(bytes[from]);
    }

    @Override
    public int read(ByteBuffer bytes) throws IOException {
      Faults.before(Deed.READ, path);
      return behind.read(bytes);
    }

    @Override
    public int read(ByteBuffer bytes, long at) throws IOException {
      Faults.before(Deed.READ, path);
      return behind.read(bytes, at);
    }

    @Override
    public long read(ByteBuffer[] bytes, int from, int count) throws IOException {
      Faults.before(Deed.READ, path);
      return behind.read(bytes, from, count);
    }

    @Override
    public long position() throws IOException {
      return behind.position();
    }

    @Override
    public FileChannel position(long at) throws IOException {
      behind.position(at);
      return this;
    }

    @Override
    public long size() throws IOException {
      Faults.before(Deed.LOOK, path);
      return behind.size();
    }

    @Override
    public FileChannel truncate(long size) throws IOException {
      Faults.before(Deed.WRITE, path);
      behind.truncate(size);
      return this;
    }

    @Override
    public void force(boolean all) throws IOException {
      Faults.before(Deed.SYNC, path);
      behind.force(all);
    }

    @Override
    public long transferTo(long at, long count, WritableByteChannel to) throws IOException {
      Faults.before(Deed.READ, path);
      return behind.transferTo(at, count, to);
    }

    @Override
    public long transferFrom(ReadableByteChannel from, long at, long count) throws IOException {
      Faults.before(Deed.WRITE, path);
      return behind.transferFrom(from, at, count);
    }

    @Override
    public MappedByteBuffer map(MapMode mode, long at, long size) throws IOException {
      return behind.map(mode, at, size);
    }

    @Override
    public FileLock lock(long at, long size, boolean shared) throws IOException {
      return behind.lock(at, size, shared);
    }

    @Override
    public FileLock tryLock(long at, long size, boolean shared) throws IOException {
      return behind.tryLock(at, size, shared);
    }

    /** Closes in any case: a close that fails has let go of the file. */
    @Override
    protected void implCloseChannel() throws IOException {
      behind.close();
      Faults.before(Deed.CLOSE, path);
    }
  }
}
