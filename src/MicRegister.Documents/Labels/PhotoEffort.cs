namespace MicRegister.Documents.Labels;

/// <summary>How much work goes into one photo, whatever it holds: counted, bounded, and given up with whoever asked.</summary>
/// <param name="time">Clock that <paramref name="most"/> is measured by.</param>
/// <param name="most">After this long, nothing further is tried than the first look at a smaller picture of the whole.</param>
/// <param name="cancel">Ends the work at the next step.</param>
public sealed class PhotoEffort(TimeProvider time, TimeSpan most, CancellationToken cancel)
{
    /// <summary>What the server gives one photo.</summary>
    public static readonly TimeSpan Usual = TimeSpan.FromSeconds(2);

    private readonly long _begun = time.GetTimestamp();

    /// <summary>Pixels that were unpacked, in all.</summary>
    public long Unpacked { get; private set; }

    /// <summary>Most pixels of one picture that was held at once.</summary>
    public long MostHeld { get; private set; }

    /// <summary>Pixels that were searched for codes, in all.</summary>
    public long Searched { get; private set; }

    /// <summary>Whether some of the photo was not looked at as closely as could be, since the time was over.</summary>
    public bool IsCutShort { get; private set; }

    /// <summary>How often a look was given up, since the picture seemed to hold more corners of codes than any photo of labels.</summary>
    public int Crowds { get; private set; }

    internal void SawCrowd() => Crowds++;

    /// <exception cref="OperationCanceledException">Nobody waits for it any more.</exception>
    internal void ThrowIfGivenUp() => cancel.ThrowIfCancellationRequested();

    /// <summary>Whether there is time for another try.</summary>
    /// <exception cref="OperationCanceledException">Nobody waits for it any more.</exception>
    internal bool GoesOn()
    {
        cancel.ThrowIfCancellationRequested();
        IsCutShort |= time.GetElapsedTime(_begun) > most
            || Unpacked > PhotoOfLabel.MostUnpacked
            || Searched > PhotoOfLabel.MostSearched;
        return !IsCutShort;
    }

    /// <exception cref="OperationCanceledException">Nobody waits for it any more.</exception>
    internal void Unpack(long width, long height)
    {
        cancel.ThrowIfCancellationRequested();
        Unpacked += width * height;
        MostHeld = Math.Max(MostHeld, width * height);
    }

    /// <exception cref="OperationCanceledException">Nobody waits for it any more.</exception>
    internal void Search(long width, long height)
    {
        cancel.ThrowIfCancellationRequested();
        Searched += width * height;
    }
}
