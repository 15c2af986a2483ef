using MicRegister.Documents.Import;
using MicRegister.Register;
using MicRegister.Server.Imports;

namespace MicRegister.Server.Commands;

/// <summary>Fills a register with the invented fleet, through the doors that users have.</summary>
internal static class DemoRegister
{
    /// <summary>In whose name it is taken over.</summary>
    private const string Author = "Demo registrar";

    /// <summary>Takes the files over and says what people said of doubts; what is there already adds nothing.</summary>
    /// <param name="live">The register.</param>
    /// <param name="batches">Files of the demo.</param>
    /// <param name="today">The day as of which is judged.</param>
    /// <param name="aside">Folder for tables of rows to mend; null writes none.</param>
    /// <param name="cancel">Gives up between two files' facts.</param>
    public static async Task<Filled> Fill(
        LiveRegister live, IReadOnlyList<DemoFiles> batches, DateOnly today, string? aside, CancellationToken cancel)
    {
        live.CurveReader = new Documents.Curves.CurveShelf(live.Log.OpenAttachment).Read;
        var (stored, files, left) = (0, new List<FileReport>(), new List<string>());
        foreach (var batch in batches)
        {
            // What the files tell had happened when they were written, whichever day is judged.
            var hand = batch.Files.Select(f => FileAtHand.Find(f)).ToList();
            var importing = Importing.Worked(
                live.Now, today > batch.Day ? today : batch.Day, null, new() { Files = [.. hand.Select(f => f.Asked)] },
                i => hand[i].Open(), cancel);
            stored += await importing.Store(live, Author, TimeProvider.System, cancel);
            files.AddRange(importing.Reports);
            if (aside is not null) left.AddRange(MendTable.Write(importing.Aside(), hand, aside, over: true));
        }
        stored += await DemoDoubts.Settle(live, DemoFiles.Doubts, Author, cancel);
        live.Log.Settle(live.Now, always: stored > 0);
        return new(stored, files, left);
    }

    /// <param name="Stored">How many facts are new.</param>
    /// <param name="Files">What each file held.</param>
    /// <param name="Aside">Tables of rows to mend.</param>
    internal sealed record Filled(int Stored, IReadOnlyList<FileReport> Files, IReadOnlyList<string> Aside);
}
