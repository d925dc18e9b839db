"""The paths of the API: what is asked for, in; what is answered, out. The work is that of the tasks.

``answering`` hands a job in and makes a response of its answer; ``studies`` has the paths that take a study, ``exports`` its files,
``watched`` the folder, ``program`` what there is to know of the program.
"""
