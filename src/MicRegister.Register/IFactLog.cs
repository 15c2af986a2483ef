using MicRegister.Register.Facts;

namespace MicRegister.Register;

/// <summary>
/// A log of facts that is the only truth: what it acknowledged is there after any crash. One writer; readers take no lock.
/// </summary>
public interface IFactLog : IFactSource, IDisposable
{
    /// <summary>Sequence and chain hash of the newest acknowledged fact.</summary>
    LogHead Head { get; }

    /// <summary>The register of all acknowledged facts, to carry on from. Called once, before the first append.</summary>
    Register Load();

    /// <summary>Appends facts as one batch: all of them or, after a crash, none. Returns when they are on the disk.</summary>
    /// <param name="facts">Facts that the log does not hold yet; <see cref="LiveRegister"/>, the one writer, sees to that.</param>
    /// <exception cref="StoreException">The log cannot be written; it stays stopped until it is opened again.</exception>
    void Append(IReadOnlyList<IncomingFact> facts);

    /// <summary>Lets the log keep what makes the next start quicker, when enough facts came since the last time or when asked to.</summary>
    /// <param name="register">A register of this log's facts, up to any of them.</param>
    /// <param name="always">Whether to do it however few facts came.</param>
    void Settle(Register register, bool always = false);

    /// <summary>Facts with their receipts, in sequence.</summary>
    /// <param name="sequence">First sequence wanted, from 1.</param>
    IEnumerable<LoggedFact> ReadFrom(int sequence);

    /// <summary>Sequences of the facts that fit all given parts of a question, ascending.</summary>
    IReadOnlyList<int> Find(FactQuery query);

    /// <summary>Keeps an attachment; keeping it twice keeps it once.</summary>
    /// <param name="content">At most <see cref="MaxAttachmentBytes"/>.</param>
    /// <returns>Its SHA-256 in hexadecimal, when it is on the disk.</returns>
    string KeepAttachment(Stream content);

    /// <summary>An attachment; null where it is not here yet.</summary>
    Stream? OpenAttachment(string sha256);

    /// <summary>Greatest size of an attachment.</summary>
    const int MaxAttachmentBytes = 25 * 1024 * 1024;
}
