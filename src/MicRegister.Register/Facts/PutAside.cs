namespace MicRegister.Register.Facts;

/// <summary>Something that a phone sent as a fact and that is none. It is kept as an attachment for a person to look at. Subject: the item.</summary>
/// <param name="Sha256">SHA-256 of its bytes, in hexadecimal: the attachment's.</param>
/// <param name="Bytes">Its size.</param>
/// <param name="From">Who sent it.</param>
/// <param name="Why">Why it is no fact.</param>
public sealed record ItemPutAside(string Sha256, long Bytes, string From, string Why) : FactBody;

/// <summary>What was put aside and waits for a person; annulling its fact says that it is settled.</summary>
internal static class PutAside
{
    public static IEnumerable<RegisterFinding> Findings(Register register)
    {
        foreach (var sha in register.AsideIds)
        {
            var counting = register.Facts(Subject.Aside(sha)).Where(register.Counts).Select(register.Source.Read).Where(f => f.Body is ItemPutAside).ToList();
            if (counting.Count > 0 && counting[^1].Body is ItemPutAside item)
                yield return new("put-aside", [Subject.Aside(sha)], $"{item.From} sent {item.Bytes} bytes that are no fact ({item.Why}); they are kept as attachment {sha[..12]}. Find out what was meant, state it, then annul this entry.", [counting[^1].Id.ToString()]);
        }
    }
}
