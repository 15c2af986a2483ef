using System.CommandLine;
using MicRegister.Register;
using MicRegister.Register.Facts;
using MicRegister.Register.People;
using MicRegister.Server.Accounts;
using MicRegister.Server.Setup;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Commands;

/// <summary>Accounts, for whoever sits at the machine itself: an owner who is locked out gets in again.</summary>
internal static class AccountCommand
{
    public static Command Make()
    {
        var what = new Argument<string>("what") { Description = "list, make, password, duties, close or reopen." };
        var name = new Argument<string?>("name") { Description = "Name of the account.", Arity = ArgumentArity.ZeroOrOne };
        var duties = new Option<string?>("--duties") { Description = "look, field, bench, plan, own; several with commas." };
        var data = CommonOptions.Data();
        var command = new Command(
            "account",
            "Accounts of a register whose server is stopped: list them, make one, set a password (read from standard input), "
                + "set duties, close or reopen one.")
        { what, name, duties, data };
        command.SetAction((parsed, _) => CommandExit.Run(() => Task.FromResult(Run(
            parsed.GetValue(what)!, parsed.GetValue(name), parsed.GetValue(duties), CommonOptions.Folder(parsed.GetValue(data))))));
        return command;
    }

    private static int Run(string what, string? name, string? dutyText, string folder)
    {
        if (!Directory.Exists(folder)) throw new BadUseException($"The folder {folder} holds no register.");
        using var book = AccountBook.Open(new DiskFiles(folder), TimeProvider.System);
        if (what == "list")
        {
            foreach (var a in book.Accounts)
                Console.WriteLine(
                    $"{a.Name}: {DutyWords.Of(a.Duties)}{(a.IsClosed ? ", closed" : "")}"
                    + (a.PasswordHash is null ? ", no password" : ""));
            if (book.Accounts.Count == 0)
                Console.WriteLine("None yet: start the server and open the link that it prints, or use 'account make NAME --duties own'.");
            return CommandExit.Good;
        }
        if (string.IsNullOrWhiteSpace(name)) throw new BadUseException($"account {what} needs the name of an account.");
        Duties? duties = dutyText is null ? null : DutyWords.TryRead(dutyText, out var read) ? read
            : throw new BadUseException($"--duties {dutyText}: allowed are {string.Join(", ", DutyWords.Single.Select(DutyWords.Of))}.");
        Account Known() => book.Named(name)
            ?? throw new BadUseException($"There is no account {name}; there are {string.Join(", ", book.Accounts.Select(a => a.Name))}.");
        switch (what)
        {
            case "make":
                if (duties is not { } wanted) throw new BadUseException("account make needs --duties.");
                if (book.Make(name, wanted, people: People(folder)) is Result<Account>.Rejected { Why: var why })
                    throw new BadUseException(why.Text);
                break;
            case "password":
                var account = Known();
                if (!Console.IsInputRedirected)
                    Console.Error.WriteLine(
                        $"New password of {account.Name}, {AccountBook.LeastPassword} characters or more, then Enter:");
                Check(book.SetPassword(account.Id, Console.In.ReadLine() ?? ""));
                break;
            case "duties":
                Check(book.SetDuties(Known().Id, duties ?? throw new BadUseException("account duties needs --duties.")));
                break;
            case "close":
            case "reopen":
                Check(book.Close(Known().Id, what == "close"));
                break;
            default:
                throw new BadUseException($"account {what}: allowed are list, make, password, duties, close, reopen.");
        }
        Console.WriteLine(
            $"{name}: {DutyWords.Of(Known().Duties)}{(Known().IsClosed ? ", closed" : "")}"
            + (Known().PasswordHash is null ? "; no password yet: account password" : ""));
        return CommandExit.Good;
    }

    private static void Check(Rejection? why)
    {
        if (why is not null) throw new BadUseException(why.Text);
    }

    // Whoever is locked out of a damaged register gets in all the same; then names are compared with accounts and phones alone.
    private static List<PersonState> People(string folder)
    {
        try
        {
            using var store = ReadOnlyStore.Open(new DiskFiles(folder));
            return store is null ? [] : [.. store.Register.PersonIds.Select(store.Register.Person).OfType<PersonState>()];
        }
        catch (StoreException e)
        {
            Console.Error.WriteLine($"The register cannot be read, so the name was not compared with those in it: {e.Message}");
            return [];
        }
    }
}
