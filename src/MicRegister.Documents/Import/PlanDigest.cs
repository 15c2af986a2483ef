using System.Security.Cryptography;
using System.Text;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Import;

/// <summary>What files would do to a register, as one hash: the facts, and what people are told of each row.</summary>
/// <remarks>
/// A change that the import itself makes counts on from the size of the register, so that its id is another one after any fact from
/// elsewhere; here it is taken with what it says and not with that number.
/// </remarks>
public static class PlanDigest
{
    /// <summary>The hash of a plan.</summary>
    /// <param name="facts">Facts of all rows, in order.</param>
    /// <param name="reports">What would become of each file.</param>
    /// <returns>SHA-256 in hexadecimal.</returns>
    public static string Of(IEnumerable<Fact> facts, IEnumerable<FileReport> reports)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var fact in facts) Add(hash, Uncounted(fact).Id.ToString());
        foreach (var report in reports)
        {
            Add(hash, report.Name);
            foreach (var o in report.Outcomes) Add(hash, FormattableString.Invariant($"{o.Sheet}\t{o.Row}\t{o.Sort}\t{o.Text}"));
        }
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    private static Fact Uncounted(Fact fact) => fact.Counter < ImportSession.FirstChange
        ? fact
        : FactText.WriteDerived(FactStamp.Imported(fact.Occurred, 0), fact.Body, fact.Subjects, fact.Replaces);

    private static void Add(IncrementalHash hash, string text) => hash.AppendData(Encoding.UTF8.GetBytes(text + "\n"));
}
