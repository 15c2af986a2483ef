using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using MicRegister.Server.Setup;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Commands;

/// <summary>Shows that a log is whole and in order; works while a server runs.</summary>
internal static class VerifyCommand
{
    public static Command Make()
    {
        var (data, json) = (CommonOptions.Data(), CommonOptions.Json());
        var head = new Option<string?>("--head") { Description = "Sequence and chain hash from an old print, as N:HASH." };
        var command = new Command("verify", "Show that the register's log is whole and in order.") { data, head, json };
        command.SetAction((parsed, cancel) => CommandExit.Run(() => Task.FromResult(Run(
            CommonOptions.Folder(parsed.GetValue(data)), parsed.GetValue(head), parsed.GetValue(json), cancel))));
        return command;
    }

    private static int Run(string folder, string? head, bool asJson, CancellationToken cancel)
    {
        if (!Directory.Exists(folder) || !File.Exists(Path.Combine(folder, JournalStore.JournalName)))
            throw new BadUseException($"The folder {folder} holds no register.");
        var files = new DiskFiles(folder);
        var found = ReadOnlyStore.Verify(files, cancel);
        var fault = found.Fault ?? (head is null ? null : Against(files, head));
        if (asJson)
        {
            Console.WriteLine(new JsonObject
            {
                ["facts"] = found.Facts,
                ["log"] = found.Head.ToString(),
                ["digest"] = found.Digest.ToString(),
                ["unacknowledgedBytes"] = found.TornBytes,
                ["fault"] = fault,
            }.ToJsonString());
        }
        else
        {
            Console.WriteLine(fault is null ? $"Whole and in order: {found.Facts} facts." : fault);
            Console.WriteLine($"Log {found.Head}; set {found.Digest}");
            if (found.TornBytes > 0)
                Console.WriteLine($"{found.TornBytes} bytes behind it were never acknowledged; the next start puts them aside.");
        }
        return fault is null ? CommandExit.Good : CommandExit.NotReady;
    }

    private static string? Against(DiskFiles files, string head)
    {
        if (head.Split(':') is not [var number, { Length: 64 } hash]
            || !int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var sequence))
        {
            throw new BadUseException($"--head {head} is no head; write it as N:HASH with 64 hexadecimal digits.");
        }
        using var store = ReadOnlyStore.Open(files)!;
        return store.ChainAt(sequence) is not { } chain ? $"This log has {store.Head.Sequence} facts, the print has {sequence}."
            : string.Equals(chain, hash, StringComparison.OrdinalIgnoreCase) ? null
            : $"At fact {sequence} this log has the chain hash {chain}, the print has another: it is not the log that was printed.";
    }
}
