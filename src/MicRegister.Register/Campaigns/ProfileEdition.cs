using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Campaigns;

/// <summary>A version of a requirement profile as it was written once.</summary>
/// <param name="Key">Id of the fact that wrote it; <see cref="BuiltIn"/> of the one that came with the program.</param>
/// <param name="Written">What it asks.</param>
/// <param name="Day">When it was written; null of the built-in one.</param>
/// <param name="Author">Id of the person who wrote it; null of the built-in one.</param>
public sealed record ProfileEdition(string Key, ProfileWritten Written, DateOnly? Day, string? Author)
{
    /// <summary>Key of what came with the program.</summary>
    public const string BuiltIn = "built-in";

    /// <summary>Whether the fact that wrote it counts still; an annulled or replaced one does not.</summary>
    public bool Counts { get; init; } = true;

    /// <summary>Whether it is the one that counts now.</summary>
    public bool IsInForce { get; init; }

    /// <summary>The last comparison of it with the text of its source; null where nobody compared it.</summary>
    public Dated<ProfileConfirmed>? Confirmed { get; init; }

    /// <summary>
    /// What its limits ask, in 26 characters: keys, values, words and sources, in any order; not its name and not how sure it is.
    /// </summary>
    public string Digest => DigestOf(Written);

    /// <summary>The same of what is written.</summary>
    public static string DigestOf(ProfileWritten written)
    {
        var text = new StringBuilder();
        foreach (var limit in written.Limits.OrderBy(l => l.Key, StringComparer.Ordinal))
        {
            // With lengths, so that no text can be taken for the begin of another.
            foreach (var part in new[] { limit.Key, limit.Value?.ToString("R", CultureInfo.InvariantCulture), limit.Text, limit.Source })
                text.Append(part?.Length ?? -1).Append(':').Append(part).Append('\n');
        }
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())))[..26];
    }
}
