using System.Text.Json;
using MicRegister.Register;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Facts;
using MicRegister.Register.People;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Commands;

/// <summary>Says of the demo's doubts what people said: the same words again are the same facts.</summary>
internal static class DemoDoubts
{
    /// <returns>How many facts are new.</returns>
    public static async Task<int> Settle(LiveRegister live, string file, string by, CancellationToken cancel)
    {
        var words = JsonSerializer.Deserialize<List<Word>>(await File.ReadAllTextAsync(file, cancel), JsonSerializerOptions.Web) ?? [];
        var stored = 0;
        foreach (var (word, i) in words.Select((w, i) => (w, i)))
        {
            var saying = new Saying(new(Occurred.On(word.Day), PersonState.IdOf(by), "command", i + 1));
            var answer = await live.Submit(r => Of(r, word, saying), "import by " + PersonState.IdOf(by), cancel);
            stored += answer switch
            {
                Result<IReadOnlyList<AppendOutcome>>.Accepted accepted => accepted.Value.Count(o => o.Result == AppendResult.Stored),
                Result<IReadOnlyList<AppendOutcome>>.Rejected rejected =>
                    throw new BadUseException($"{Path.GetFileName(file)}, {word.Device}: {rejected.Why.Text}"),
                _ => 0,
            };
        }
        return stored;
    }

    private static Result<IReadOnlyList<Fact>> Of(Register.Register register, Word word, Saying saying) =>
        DoubtBook.All(register).FirstOrDefault(d => register.Device(d.Device)?.Serial == word.Device) is { } doubt
            ? DoubtBook.Settle(register, saying, doubt.Key, word.IsConfirmed, word.Events, word.Reason)
            : new Rejection(RejectionSort.NotFound, "nothing puts it in doubt.");

    private sealed record Word(string Device, DateOnly Day, bool IsConfirmed, IReadOnlyList<string> Events, string Reason);
}
