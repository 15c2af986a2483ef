using MicRegister.Register.Facts;

namespace MicRegister.Register.Intake;

/// <summary>What was put aside and waits for a person; annulling its fact says that it is settled.</summary>
internal static class PutAside
{
    public static IEnumerable<RegisterFinding> Findings(Register register)
    {
        foreach (var sha in register.Ids("aside"))
        {
            var counting = register.Facts(Subject.Aside(sha))
                .Where(register.Counts).Select(register.Source.Read)
                .Where(f => f.Body is ItemPutAside).ToList();
            if (counting.Count > 0 && counting[^1].Body is ItemPutAside item)
                yield return new(
                    "put-aside",
                    [Subject.Aside(sha)],
                    $"{item.From} sent {item.Bytes} bytes that are no fact ({item.Why}); "
                        + $"they are kept as attachment {sha[..12]}. "
                        + "Find out what was meant, state it, then annul this entry.",
                    [counting[^1].Id.ToString()]);
        }
    }
}
