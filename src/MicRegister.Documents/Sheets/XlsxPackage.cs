using System.IO.Compression;
using System.Xml;

namespace MicRegister.Documents.Sheets;

/// <summary>The parts of a workbook, each read through a counter so that a bomb ends early.</summary>
internal sealed class XlsxPackage : IDisposable
{
    private static readonly XmlReaderSettings Settings = new()
    {
        DtdProcessing = DtdProcessing.Prohibit,
        XmlResolver = null,
        IgnoreComments = true,
        IgnoreProcessingInstructions = true,
        CloseInput = true,
        MaxCharactersInDocument = 0,
    };

    private readonly ZipArchive _zip;
    private readonly SheetLimits _limits;
    private long _unpacked;

    public XlsxPackage(Stream content, string name, SheetLimits limits)
    {
        Name = name;
        _limits = limits;
        try
        {
            // Asking for the entries reads the directory, which can be damaged too.
            _zip = new ZipArchive(content, ZipArchiveMode.Read, leaveOpen: true);
            _ = _zip.Entries.Count;
        }
        catch (Exception e) when (e is InvalidDataException or EndOfStreamException or ArgumentException or OverflowException or NotSupportedException)
        {
            throw new SheetException($"{name} is damaged: its list of parts cannot be read. Open it in a spreadsheet program and save it anew.", e);
        }
        if (_zip.Entries.Count > 10_000) throw new SheetException($"{name} has {_zip.Entries.Count} parts; no workbook needs so many.");
        // What it says of itself is looked at before time is spent; what it then gives is counted.
        if (_zip.Entries.Sum(e => e.Length) is var said && said > limits.UnpackedBytes)
            throw new SheetException($"{name} unpacks to {said} bytes; at most {limits.UnpackedBytes} are read.");
        if (_zip.GetEntry("xl/workbook.xml") is null) throw new SheetException($"{name} is a packed file but no workbook (.xlsx).");
    }

    public string Name { get; }

    public bool Has(string part) => _zip.GetEntry(part) is not null;

    public XmlReader Open(string part)
    {
        var entry = _zip.GetEntry(part) ?? throw Damaged($"the part {part} is missing");
        return Guard(() => XmlReader.Create(new Counted(entry.Open(), this), Settings));
    }

    /// <summary>Runs over the start of every element of a part.</summary>
    public void Each(string part, Action<XmlReader> element)
    {
        using var xml = Open(part);
        while (Guard(xml.Read))
        {
            if (xml.NodeType == XmlNodeType.Element) element(xml);
        }
    }

    /// <summary>Turns what a damaged package throws into a message that names the file.</summary>
    public T Guard<T>(Func<T> read)
    {
        try
        {
            return read();
        }
        catch (Exception e) when (e is XmlException or InvalidDataException or FormatException or EndOfStreamException or NotSupportedException or ArgumentException or OverflowException)
        {
            throw Damaged("a part of it cannot be read (" + Cause(e) + "); open it in a spreadsheet program and save it anew");
        }
    }

    public void Guard(Action read) => Guard(() =>
    {
        read();
        return true;
    });

    private static string Cause(Exception e) => e switch
    {
        XmlException x => FormattableString.Invariant($"it is no well-formed XML at line {x.LineNumber}"),
        EndOfStreamException => "it ends too early",
        _ => "it does not unpack",
    };

    public SheetException Damaged(string what) => new($"{Name} is damaged: {what}.");

    public void Dispose() => _zip.Dispose();

    private sealed class Counted(Stream inner, XlsxPackage package) : Stream
    {
        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position
        {
            get => throw new NotSupportedException();
            set => throw new NotSupportedException();
        }

        public override int Read(byte[] buffer, int offset, int count)
        {
            var got = inner.Read(buffer, offset, count);
            package._unpacked += got;
            // Sheets are read twice, for merged cells first.
            return package._unpacked <= 2 * package._limits.UnpackedBytes
                ? got
                : throw new SheetException($"{package.Name} unpacks to more than {package._limits.UnpackedBytes} bytes; it is not read.");
        }

        public override void Flush()
        {
            // Only read.
        }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

        protected override void Dispose(bool disposing)
        {
            if (disposing) inner.Dispose();
            base.Dispose(disposing);
        }
    }
}
